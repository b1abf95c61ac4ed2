"""One job on each car that measures again what work made void, after all of that work."""

from datetime import datetime

from django.db import transaction

from builds.readings.actions.order import car_jobs, cut, draw_order, given, strips
from builds.readings.engine import READINGS, names_of
from builds.readings.engine.conditions import conditions_of
from builds.readings.engine.kind_line import KindLine
from builds.readings.engine.kinds_of_work import FOLLOWS_WORK, follows_work, voided_by
from builds.readings.engine.order_of_work import CarJob, order_of_work, untaken
from builds.readings.engine.reading_kind import ReadingKind
from builds.readings.engine.void import LAPSED, MISSING, STANDS, ReadingStanding, to_measure
from builds.readings.facts.finished import finished_work
from builds.readings.facts.readings import readings_of
from builds.readings.models.target import RequiredReadings
from builds.work.actions import turn
from builds.work.models.job import MEASURE_AGAIN, Job, JobStation
from builds.work.models.states import State
from garage.models import Garage, Membership, Skill, Station, Vehicle

NOT_NEEDED = "nothing is left to measure that other work does not measure"
# Minutes on hand to set up, and for each reading: goes well, likely, fights back. Invented.
SET_UP, EACH = (10, 20, 40), (10, 15, 30)
LONGEST_TITLE = 120
NAMED = 3  # in a title too long for all of them


@transaction.atomic
def settle(vehicle: Vehicle, *, by: Membership, at: datetime) -> Job | None:
    """The order of work on this car, and its one open job that measures again.

    Called after whatever changes what is void: the job is made, changed or ended as it must be.
    None when nothing must be measured again, or jobs that are there take it all anyway.
    """
    job = _measuring_again(vehicle, by=by, at=at)
    draw_order(vehicle)
    return job


def _measuring_again(vehicle: Vehicle, *, by: Membership, at: datetime) -> Job | None:
    job = Job.objects.on(vehicle).measuring_again().open().first()
    required = RequiredReadings.objects.filter(vehicle=vehicle).first()
    others = car_jobs(vehicle, with_measuring_again=False)
    coming = follows_work(kind for other in others.values() for kind in other.kinds)
    if job is None and not (required and required.kinds) and not coming:
        return None
    # Two people who change work at once must not make two of it.
    Garage.objects.select_for_update().get(pk=vehicle.garage_id)
    lines = readings_of(vehicle.garage, [vehicle], at)[vehicle.pk].lines
    done = _done_without(vehicle, lines, job, at)
    kinds = [lines[key].kind for key in _left_over(vehicle, lines, job, others, coming | done)]
    if not kinds:
        if job is not None:
            _end(job, lines, by=by, at=at)
        return None
    if job is None:
        job = _make(vehicle, kinds, by=by, at=at)
    _bring_up_to_date(job, kinds)
    return job


def _done_without(vehicle: Vehicle, lines: dict[str, KindLine], job: Job | None, at: datetime) -> frozenset[str]:
    """Readings (keys) that work which was done is not over without, and that nobody has taken since."""
    void = {key for key, line in lines.items() if line.work and key in follows_work(line.work.kinds)}
    missing = {key for key in (job.measures if job else ()) if key in FOLLOWS_WORK and lines[key].state == MISSING}
    if job is not None and missing:
        works = finished_work([vehicle], job.made_at, at).get(vehicle.pk, [])
        missing &= follows_work(kind for work in works for kind in work.kinds)
    return frozenset(void | missing)


def _left_over(
    vehicle: Vehicle,
    lines: dict[str, KindLine],
    job: Job | None,
    others: dict[int, CarJob],
    follows: frozenset[str],
) -> list[str]:
    """Readings (keys) that must be taken and that no other job takes, the garage's own last.

    `follows` are those that work is not over without, though the car need not have them.
    """
    standing = {key: ReadingStanding(key, line.state, line.work) for key, line in lines.items() if key in READINGS}
    wanted = [key for key, line in lines.items() if line.required or key in follows]
    coming = [other.kinds for other in others.values()]
    need = set(to_measure(standing, wanted, coming)) | follows
    # A note does not mend it: the job stays until the reading has its conditions.
    asked = job.measures if job else ()
    need |= {key for key in asked if key in READINGS and _is_note(lines[key])}
    need |= {key for key, line in lines.items() if key in READINGS and line.missing and _is_note(line)}
    links = given(vehicle)
    loose = cut(vehicle)
    order = order_of_work(others, links, strips(vehicle), loose)
    ahead = voided_by({kind for kinds in coming for kind in kinds})
    own = [
        key
        for key in wanted
        if key not in READINGS and (lines[key].state in LAPSED or lines[key].kind.follows in ahead)
    ]
    return [*untaken(need, others, [*links, *order], loose), *own]


def _is_note(line: KindLine) -> bool:
    return line.required and line.state == STANDS and line.only_a_note


def _bring_up_to_date(job: Job, kinds: list[ReadingKind]) -> None:
    keys, title = [kind.key for kind in kinds], title_of(kinds)
    if (job.title, job.measures) == (title, keys):
        return
    job.title, job.measures = title, keys
    job.note = f"To measure: {names_of(kinds)}."
    job.low_minutes, job.likely_minutes, job.high_minutes = _work(len(kinds))
    job.save(update_fields=["title", "measures", "note", "low_minutes", "likely_minutes", "high_minutes"])


def title_of(kinds: list[ReadingKind]) -> str:
    """`Measure again: camber, front toe`; the first few where there are too many to name."""
    title = f"Measure again: {names_of(kinds)}"
    if len(title) <= LONGEST_TITLE:
        return title
    named = f"Measure again: {names_of(kinds[:NAMED])} and {len(kinds) - NAMED} more"
    return named if len(named) <= LONGEST_TITLE else f"Measure again: {len(kinds)} readings"


def _work(count: int) -> tuple[int, int, int]:
    low, likely, high = (base + for_reading * count for base, for_reading in zip(SET_UP, EACH, strict=True))
    return low, likely, high


def _make(vehicle: Vehicle, kinds: list[ReadingKind], *, by: Membership, at: datetime) -> Job:
    """Of no system and no kind of work: it voids nothing and needs no second pair of eyes."""
    on_the_floor = any("floor" in conditions_of(kind.key) for kind in kinds if not kind.own)
    low, likely, high = _work(len(kinds))
    job = Job.objects.create(
        vehicle=vehicle,
        title=title_of(kinds),
        rank=Job.Rank.NEEDED,
        low_minutes=low,
        likely_minutes=likely,
        high_minutes=high,
        skill=_aligner(vehicle.garage) if on_the_floor else None,
        recipe=MEASURE_AGAIN,
        made_by=by,
        made_at=at,
    )
    floor = Station.objects.in_garage(vehicle.garage_id).filter(slug="floor").first()
    if floor is not None and on_the_floor:
        JobStation.objects.create(job=job, station=floor)
    return job


def _aligner(garage: Garage) -> Skill | None:
    """The skill of aligning, if somebody who works here has it."""
    working = Membership.objects.in_garage(garage).active().working()
    skills = Skill.objects.in_garage(garage).filter(slug="align")
    return skills.filter(pk__in=working.values("skills")).first()


def _end(job: Job, lines: dict[str, KindLine], *, by: Membership, at: datetime) -> None:
    """Done when what it was for has been measured since; dropped when nothing is void any more."""
    taken = any(
        (line := lines.get(key)) and line.reading and line.reading.written_at >= job.made_at for key in job.measures
    )
    if not taken:
        turn(job, "drop", by=by, at=at, note=NOT_NEEDED, state_note=NOT_NEEDED)
        return
    if job.state == State.HELD:
        turn(job, "release", by=by, at=at, state_note="")
    turn(job, "finish", by=by, at=at, finished_at=at, left_minutes=None)


def refuse_by_hand(job: Job, step: str) -> str | None:
    """Why the job that measures again cannot take a step by hand: it comes and goes by itself."""
    if job.recipe != MEASURE_AGAIN:
        return None
    return {
        "finish": "Write the readings down: this job is finished with the last of them.",
        "drop": "It goes by itself once nothing that the car must have is void.",
        "move": "It measures what is void on its own car: it stays there.",
        "reopen": "It comes back by itself as soon as work makes a reading void.",
    }.get(step)
