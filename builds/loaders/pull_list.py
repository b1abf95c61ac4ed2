"""What is to be pulled from the shelf, by place in the order of the way round."""

from collections import defaultdict
from dataclasses import dataclass
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from builds.loaders.plan_clock import pk_of
from builds.loaders.plan_stored import shown
from builds.loaders.wants import wants_of
from builds.loaders.work import Work, load_work
from builds.models import Job, State
from garage.models import Garage
from parts.engine.words import amount_words
from parts.models import Part, Place

# An evening in the garage ends by then.
NIGHT_ENDS = timedelta(hours=4)


@dataclass(frozen=True)
class PullRow:
    """So much of a part for a job, from one place."""

    part: Part
    quantity: int
    words: str
    job: Job


@dataclass(frozen=True)
class PullList:
    """`missing` are wants of the same jobs that no shelf has whole, in words."""

    places: tuple[tuple[Place, tuple[PullRow, ...]], ...]
    missing: tuple[tuple[Job, str], ...]


def load_pull_list(garage: Garage, at: datetime, job: Job | None) -> PullList:
    """For one job, or for tonight: what is in hand, and what the plan has until the morning."""
    work = load_work(garage, at)
    chosen = {job.pk} if job else tonights(garage, work)
    wants = wants_of(work)
    found: dict[int, list[PullRow]] = defaultdict(list)
    missing = []
    for need in wants.needs:
        if need.job_id not in chosen:
            continue
        stands = wants.standing[need.pk]
        for pick in stands.picks:
            words = amount_words(need.part.unit, pick.quantity)
            found[pick.place].append(PullRow(need.part, pick.quantity, words, need.job))
        if stands.state != "shelf":
            missing.append((need.job, f"{need}: {stands.word}"))
    walk = sorted(
        (wants.places[pk] for pk in found), key=lambda place: (place.walk_order, place.pk)
    )
    return PullList(tuple((place, tuple(found[place.pk])) for place in walk), tuple(missing))


def tonights(garage: Garage, work: Work) -> set[int]:
    """Jobs (pk) of this evening; without a plan those that can be begun now."""
    in_hand = {pk for pk, job in work.jobs.items() if job.state == State.IN_HAND}
    plan = shown(garage)
    if plan is None:
        return in_hand | {pk for pk in work.jobs if not work.blocks(pk)}
    local = work.at.astimezone(ZoneInfo(garage.time_zone)) - NIGHT_ENDS
    morning = local.replace(hour=0, minute=0, second=0, microsecond=0) + timedelta(days=1)
    night = morning + NIGHT_ENDS
    return in_hand | {
        pk_of(name)
        for name, row in plan.placed.items()
        if plan.clock.moment(row.start) < night and plan.clock.moment(row.end) > work.at
    }
