"""What a share link shows: the state of cars, and nothing of people, money or other cars."""

from dataclasses import dataclass
from datetime import datetime, timedelta

from builds.cars.pages.vehicle_page import ReasonLine, reason_lines
from builds.plan.facts.on_plan import prospects
from builds.plan.facts.outcome import MustDoJob, outcomes_of, standing
from builds.plan.facts.stored import Stored, shown
from builds.verdict.engine import Verdict
from builds.verdict.engine.on_plan import OnPlan
from builds.work.facts.work import load_work
from builds.work.models.job import Job
from builds.work.models.states import State
from garage.models import Entry, Share, Vehicle

NEXT = 5
LATELY = timedelta(days=14)
DONE_SHOWN = 10


@dataclass(frozen=True)
class SharedCar:
    """`done` are titles, and whether each was signed; `left` counts what is to do."""

    name: str
    tape: str
    verdict: Verdict
    reasons: tuple[ReasonLine, ...]
    will_be: str
    on_plan: OnPlan | None
    done: tuple[tuple[str, bool], ...]
    next: tuple[str, ...]
    left: int


def ready_words(plan: Stored | None, jobs: list[MustDoJob]) -> str:
    """When a car that no event waits for is ready by the plan; empty when that is not known."""
    if plan is None or not jobs or any(job.name not in plan.placed for job in jobs):
        return ""
    last = max(plan.placed[job.name].end for job in jobs)
    return f"Ready {plan.clock.words(last)} by the plan."


def shared_cars(share: Share, at: datetime) -> tuple[SharedCar, ...]:
    """The shared car, or the cars entered for the shared event; a fixed number of queries."""
    entries = Entry.objects.in_garage(share.garage_id).upcoming(at).select_related("event")
    if share.event:
        entries = entries.filter(event=share.event)
        cars = list(Vehicle.objects.in_garage(share.garage_id).filter(entries__event=share.event))
    else:
        cars = [share.vehicle]
    nearest: dict[int, Entry] = {}
    for entry in entries:
        nearest.setdefault(entry.vehicle_id, entry)
    plan, jobs = shown(share.garage), standing(share.garage)
    found = prospects(share.garage, at, cars, plan, nearest or None)
    planned = outcomes_of(plan, nearest.values(), jobs, at)
    work = load_work(share.garage, at)
    done: dict[int, list[tuple[str, bool]]] = {}
    lately = Job.objects.filter(vehicle__in=cars).finished_since(at - LATELY)
    for job in lately.order_by("-finished_at", "-pk"):
        done.setdefault(job.vehicle_id, []).append((job.title, job.state == State.SIGNED))
    told = []
    for car in cars:
        to_do = [work.jobs[pk].title for pk in work.order if work.jobs[pk].vehicle_id == car.pk]
        entry = nearest.get(car.pk)
        told.append(
            SharedCar(
                car.name,
                car.tape,
                found[car.pk].verdict,
                reason_lines(found[car.pk].verdict),
                planned[entry.pk].of(car.name, entry.event.name) if entry else ready_words(plan, jobs.get(car.pk, [])),
                found[car.pk].on_plan,
                tuple(done.get(car.pk, [])[:DONE_SHOWN]),
                tuple(to_do[:NEXT]),
                len(to_do),
            )
        )
    return tuple(told)
