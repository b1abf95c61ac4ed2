"""What a share link shows: the state of cars, and nothing of people, money, other cars or when somebody is away."""

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta

from builds.cars.pages.reasons import ReasonLine, reason_lines
from builds.plan.engine.ids import id_of
from builds.plan.engine.outcome import MustDoJob
from builds.plan.engine.stored import Stored
from builds.plan.engine.timed_plan import TimedPlan
from builds.plan.facts.must_do import must_do
from builds.plan.facts.outcomes import outlooks_of
from builds.plan.facts.prospects import Prospect, prospects
from builds.share.pages.shown import cars_of
from builds.verdict.engine import Verdict
from builds.verdict.engine.on_plan import OnPlan
from builds.work.engine.open_work import Work
from builds.work.models.job import Job
from builds.work.models.states import State
from garage.facts.entries import entries_ahead, first_of_each_car
from garage.models import Entry, Share, Vehicle

NEXT = 5
LATELY = timedelta(days=14)
DONE_SHOWN = 10


@dataclass(frozen=True)
class SharedCar:
    """`jobs` are those that it shows; `done` are titles, and whether each was signed; `in_hand` what somebody is on,
    `looked_for` what is done and waits for a look; `left` counts what is to do.
    """

    name: str
    tape: str
    jobs: tuple[Job, ...]
    verdict: Verdict
    reasons: tuple[ReasonLine, ...]
    will_be: str
    on_plan: OnPlan | None
    done: tuple[tuple[str, bool], ...]
    in_hand: tuple[str, ...]
    next: tuple[str, ...]
    looked_for: tuple[str, ...]
    left: int


def shared_cars(share: Share, work: Work, plan: Stored | None) -> tuple[SharedCar, ...]:
    """The shared car, or the cars entered for the shared event, by the plan on the wall; a fixed number of queries."""
    cars, at = cars_of(share), work.at
    nearest = _nearest(share, at)
    standing = prospects(share.garage, at, cars, plan, nearest or None, jobs=work.jobs.values())
    will_be = _will_be(cars, nearest, standing, plan, work)
    done = _done(cars, at)
    return tuple(
        SharedCar(
            car.name,
            car.tape,
            _shown(to_do, done.get(car.pk, [])),
            standing[car.pk].verdict,
            reason_lines(standing[car.pk].verdict),
            will_be[car.pk],
            standing[car.pk].on_plan,
            tuple((job.title, job.state == State.SIGNED) for job in done.get(car.pk, [])[:DONE_SHOWN]),
            tuple(job.title for job in to_do if job.state == State.IN_HAND),
            tuple(job.title for job in _next(to_do)),
            tuple(job.title for job in to_do if job.looked_for),
            sum(not job.looked_for for job in to_do),
        )
        for car, to_do in _to_do(cars, work, plan)
    )


def _next(to_do: list[Job]) -> list[Job]:
    return [job for job in to_do if job.state != State.IN_HAND and not job.looked_for][:NEXT]


def _shown(to_do: list[Job], done: list[Job]) -> tuple[Job, ...]:
    begun = [job for job in to_do if job.state == State.IN_HAND or job.looked_for]
    return (*begun, *_next(to_do), *done[:DONE_SHOWN])


def preview_words(share: Share, cars: Iterable[SharedCar]) -> str:
    """What a chat shows of the link: `Not fit to run.`, with the name where there are several cars."""
    lead = "{0}: {1}." if share.several else "{1}."
    return " ".join(lead.format(car.name, car.verdict.sentence) for car in cars)


def _nearest(share: Share, at: datetime) -> dict[int, Entry]:
    """For the shared event, else for the next one of each car (pk)."""
    ahead = entries_ahead(share.garage, at)
    return first_of_each_car(entry for entry in ahead if share.event_id in (None, entry.event_id))


def _will_be(
    cars: list[Vehicle], nearest: dict[int, Entry], standing: dict[int, Prospect], plan: Stored | None, work: Work
) -> dict[int, str]:
    """What the plan means for each car (pk)."""
    jobs = must_do(work.jobs.values())
    outlooks = outlooks_of(plan, nearest.values(), jobs, standing, work.at)
    return {
        car.pk: outlooks[entry.pk].of(entry.event.name, outside=True)
        if (entry := nearest.get(car.pk))
        else _ready_by_plan(plan, jobs[car.pk], work.at)
        for car in cars
    }


def _ready_by_plan(plan: TimedPlan | None, jobs: list[MustDoJob], at: datetime) -> str:
    """When a car that no event waits for is ready; empty when that is not known or has passed."""
    if plan is None or not jobs or any(job.id not in plan.placed for job in jobs):
        return ""
    last = max(plan.placed[job.id].end for job in jobs)
    return f"Ready {plan.clock.words(last)} by the plan." if plan.clock.moment(last) > at else ""


def _done(cars: list[Vehicle], at: datetime) -> dict[int, list[Job]]:
    """By car (pk): what was finished lately, the last first."""
    done: dict[int, list[Job]] = {}
    lately = Job.objects.filter(vehicle__in=cars).finished_since(at - LATELY)
    for job in lately.order_by("-finished_at", "-pk"):
        done.setdefault(job.vehicle_id, []).append(job)
    return done


def _to_do(cars: list[Vehicle], work: Work, plan: TimedPlan | None) -> Iterator[tuple[Vehicle, list[Job]]]:
    """Each car's open jobs, as the plan has them, then the rest in working order."""
    placed = plan.placed if plan else {}
    turns = {pk: (placed[name].start if (name := id_of("job", pk)) in placed else math.inf) for pk in work.order}
    order = sorted(work.order, key=turns.__getitem__)
    for car in cars:
        yield car, [work.jobs[pk] for pk in order if work.jobs[pk].vehicle_id == car.pk]
