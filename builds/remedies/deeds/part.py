"""A part that work waits for comes on another day."""

from collections.abc import Iterator
from copy import copy
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from typing import Self

from builds.needs.actions import needs
from builds.plan.engine.ids import pk_of
from builds.plan.facts.rows import PlanRows
from builds.remedies.deeds.deed import Deed
from builds.remedies.deeds.sooner import sooner
from builds.remedies.engine.changes.sooner import Sooner
from builds.remedies.facts.deed_rows import DeedRows
from builds.remedies.facts.late_car import LateCar
from builds.work.models.need import Need
from garage.access import refuse_work_on
from garage.engine.moments import day_words
from garage.models import Membership

A_DAY = 3.0  # hours of trouble for each day sooner: telephone and driving. Common practice, no source.
MOST_DAYS = 3  # sooner that are tried


@dataclass(frozen=True)
class PartDeed(Deed):
    """`day` is the one on which the need is expected then."""

    kind = "part"
    tried_as = "a part that comes sooner"

    need: int
    day: date

    def told(self, rows: DeedRows) -> str:
        need = rows.needs[self.need]
        was = f", not {day_words(need.expected_on)}" if need.expected_on else ""
        return f"{need} for “{need.job}” comes {day_words(self.day)}{was}"

    def undo(self, rows: DeedRows) -> str:
        need = rows.needs[self.need]
        was = f" back to {day_words(need.expected_on)}" if need.expected_on else ""
        return f"set the date of {need}{was} on its job"

    def refusal(self, rows: DeedRows, by: Membership) -> str | None:
        return refuse_work_on(by, rows.needs[self.need].job.vehicle)

    def do(self, rows: DeedRows, *, by: Membership, at: datetime) -> None:
        need = rows.needs[self.need]
        told = {"what": need.what, "quantity": need.quantity, "supplier": need.supplier}
        needs.change(need, by=by, expected_on=self.day, **told)

    def change(self, car: LateCar) -> Sooner | None:
        need = car.deed_rows.needs[self.need]
        comes_on = car.plan_rows.comes_on(need)
        days = (comes_on - self.day).days if comes_on else 1
        return sooner(car, (self,), A_DAY * days, _expected_on(car.plan_rows, need, self.day))

    @classmethod
    def from_change(cls, change: Sooner, car: LateCar) -> tuple[Self, ...]:
        return change.behind

    @classmethod
    def offers(cls, car: LateCar) -> Iterator[Sooner]:
        """Each part that the car's work waits for, some days sooner."""
        today = car.clock.moment(0).date()
        for job in car.problem.must_do(car.vehicle):
            for need in car.plan_rows.needs.get(pk_of(job.id), ()):
                for day in _days_sooner(car.plan_rows.comes_on(need), today):
                    if change := cls(need.pk, day).change(car):
                        yield change


def _days_sooner(comes_on: date | None, today: date) -> list[date]:
    if comes_on is None:
        return []
    days = (comes_on - timedelta(days=days) for days in range(1, MOST_DAYS + 1))
    return [day for day in days if day >= today]


def _expected_on(rows: PlanRows, need: Need, day: date) -> PlanRows:
    """The rows with the need expected on that day."""
    moved = copy(need)
    moved.expected_on = day
    others = (other for other in rows.needs[need.job_id] if other.pk != need.pk)
    return replace(rows, needs={**rows.needs, need.job_id: [*others, moved]})
