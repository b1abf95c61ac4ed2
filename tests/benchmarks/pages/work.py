"""What was done in years: recipes put on, worked and signed, their spans, hold points, links, findings."""

import uuid
from collections.abc import Iterator
from datetime import datetime, timedelta

from builds.readings.engine.kinds_of_work import KINDS
from builds.work.models.finding import Finding
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job
from builds.work.models.link import Link
from builds.work.models.span import Span
from builds.work.models.states import State
from garage.engine.systems import SYSTEMS
from garage.models import Membership
from tests.benchmarks.pages.base import CARS, Made

DONE_A_YEAR, OF_A_RECIPE = 800, 6
HOUR = timedelta(hours=1)
RECIPE = "brake-overhaul"
# A crash would strike every belt on record, a first run is told by events.
DONE_KINDS = [kind for kind in KINDS if kind not in ("crash", "first_run")]


def work(made: Made) -> None:
    """In turn a recipe of which the last job looks at the others, and as many jobs written down alone."""
    count = DONE_A_YEAR * made.years
    rows = [_job(made, number, at) for number, at in enumerate(made.moments(count))]
    made.past = Job.objects.bulk_create(rows, batch_size=500)
    _spans(made)
    HoldPoint.objects.bulk_create(_points(made), batch_size=500)
    together = zip(made.past, made.past[1:], strict=False)
    Link.objects.bulk_create(
        (Link(before=job, after=after) for job, after in together if job.batch and job.batch == after.batch),
        batch_size=500,
    )
    Finding.objects.bulk_create(
        Finding(during=job, opened=after, line=f"Seen: {after.title}", by=job.made_by, at=job.finished_at)
        for job, after in zip(made.past[::50], made.past[1::50], strict=False)
    )


def _job(made: Made, number: int, at: datetime) -> Job:
    """Of a recipe only the last job has a hold point: the others are done for good."""
    group, place = divmod(number, OF_A_RECIPE)
    recipe = group % 2 == 0
    last = place == OF_A_RECIPE - 1
    state = State.SIGNED if last or not recipe else State.DONE
    systems = list(SYSTEMS)
    return Job(
        vehicle=made.cars[group % CARS],
        title=f"Work {number}: {systems[group % len(systems)]}",
        systems=[systems[group % len(systems)]],
        kinds=[DONE_KINDS[number % len(DONE_KINDS)]],
        rank=("safety", "needed", "wanted")[group % 3],
        recipe=RECIPE if recipe else "",
        batch=uuid.UUID(int=group + 1) if recipe else None,
        low_minutes=30,
        likely_minutes=60,
        high_minutes=120,
        state=state,
        made_by=made.owner,
        made_at=at - 6 * HOUR,
        finished_at=at,
        signed_by=made.members[1] if state == State.SIGNED else None,
        signed_at=at + HOUR if state == State.SIGNED else None,
    )


def _spans(made: Made) -> None:
    spans = Span.objects.bulk_create((span for job in made.past for span in _steps(made, job)), batch_size=500)
    hands = [made.members[span.job_id % 3] for span in spans]
    crews = Span.crew.through
    crews.objects.bulk_create(
        (
            crews(span=span, membership=member)
            for span, member in zip(spans, hands, strict=True)
            if span.state == State.IN_HAND
        ),
        batch_size=500,
    )


def _steps(made: Made, job: Job) -> Iterator[Span]:
    """Written down, in hand, put down, in hand again, done, signed."""
    by, ended = _hand(made, job), job.finished_at
    times = [ended - 6 * HOUR, ended - 5 * HOUR, ended - 3 * HOUR, ended - HOUR, ended]
    states = [State.OPEN, State.IN_HAND, State.WAITING, State.IN_HAND, State.DONE]
    if job.state == State.SIGNED:
        times, states = [*times, ended + HOUR], [*states, State.SIGNED]
    for state, since, until in zip(states, times, [*times[1:], None], strict=True):
        yield Span(job=job, state=state, from_at=since, until_at=until, by=by)


def _hand(made: Made, job: Job) -> Membership:
    return made.members[job.pk % 3]


def _points(made: Made) -> Iterator[HoldPoint]:
    for job in made.past:
        if job.batch and job.state == State.SIGNED:
            yield HoldPoint(
                job=job, what="Look at the joints", signed_by=made.members[1], signed_at=job.signed_at, seen="tight"
            )
