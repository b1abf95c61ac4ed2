"""Wanted work waits until the late car has left; that of the car itself until it is back."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Self

from builds.plan.engine.ids import id_of, pk_of
from builds.remedies.deeds.deed import Deed, number
from builds.remedies.engine.changes.defer import Defer, deferrals
from builds.remedies.facts.deed_rows import DeedRows
from builds.remedies.facts.late_car import LateCar
from builds.work.models.job import Job
from builds.work.models.states import State
from garage.access import refuse_work_on
from garage.actions.refused import Refused
from garage.engine.words import listed_in_words
from garage.models import Entry, Membership

MOST_NOTE = 4000


@dataclass(frozen=True)
class DeferDeed(Deed):
    """`entry` is that of the late car; one job at least."""

    kind = "defer"
    tried_as = "wanted work put off"
    way_back = "take the earliest start off the work"

    entry: int
    jobs: tuple[int, ...]

    def parts(self) -> list[str]:
        return [str(pk) for pk in (self.entry, *self.jobs)]

    @classmethod
    def from_parts(cls, parts: Sequence[str]) -> Self:
        if len(parts) < 2:
            raise ValueError("a deed of another shape")
        entry, *jobs = (number(part) for part in parts)
        return cls(entry, tuple(jobs))

    def told(self, rows: DeedRows) -> str:
        titles = listed_in_words([f"“{rows.jobs[pk]}”" for pk in self.jobs])
        verb = "waits" if len(self.jobs) == 1 else "wait"
        return f"{titles} {verb} until {rows.entries[self.entry].vehicle} has left"

    def refusal(self, rows: DeedRows, by: Membership) -> str | None:
        return next(filter(None, (refuse_work_on(by, rows.jobs[pk].vehicle) for pk in self.jobs)), None)

    def do(self, rows: DeedRows, *, by: Membership, at: datetime) -> None:
        late = rows.entries[self.entry]
        for pk in self.jobs:
            _put_off(rows.jobs[pk], late)

    def change(self, car: LateCar) -> Defer:
        return Defer(tuple(id_of("job", pk) for pk in self.jobs), car.due)

    @classmethod
    def from_change(cls, change: Defer, car: LateCar) -> tuple[Self, ...]:
        return (cls(car.entry.pk, tuple(pk_of(job) for job in change.jobs)),)

    @classmethod
    def offers(cls, car: LateCar) -> list[Defer]:
        return deferrals(car.problem, car.plan, car.vehicle)


def _put_off(job: Job, late: Entry) -> None:
    if job.must_do:
        raise Refused(f"“{job}” is {job.rank} work: it is not put off.")
    if job.state == State.IN_HAND or job.pinned_at:
        raise Refused(f"“{job}” is in hand or pinned: it is not put off.")
    own = job.vehicle_id == late.vehicle_id
    job.earliest_at = late.event.ends_at if own else late.event.due_at
    note = f"Put off so that {late.vehicle} makes {late.event}."
    if len(job.note) + len(note) < MOST_NOTE:
        job.note = f"{job.note}\n{note}".strip()
    job.save(update_fields=["earliest_at", "note"])
