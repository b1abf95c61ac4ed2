"""The rows of a garage that deeds speak of, by pk."""

from functools import cached_property
from typing import Any

from builds.work.models.job import Job
from builds.work.models.need import Need
from garage.models import Entry, Event, Garage, Membership, Skill, Station, Vehicle


class DeedRows:
    """Each kind of row is one query, at first use. KeyError for a row that is not there, or not any more."""

    def __init__(self, garage: Garage) -> None:
        self.garage = garage

    @cached_property
    def members(self) -> dict[int, Membership]:
        return _by_pk(
            Membership.objects.in_garage(self.garage)
            .active()
            .select_related("person", "garage")
            .prefetch_related("events")
        )

    @cached_property
    def skills(self) -> dict[int, Skill]:
        return _by_pk(Skill.objects.in_garage(self.garage))

    @cached_property
    def jobs(self) -> dict[int, Job]:
        return _by_pk(Job.objects.in_garage(self.garage).open().select_related("vehicle"))

    @cached_property
    def needs(self) -> dict[int, Need]:
        return _by_pk(Need.objects.in_garage(self.garage).open().select_related("job__vehicle"))

    @cached_property
    def stations(self) -> dict[int, Station]:
        return _by_pk(Station.objects.in_garage(self.garage))

    @cached_property
    def entries(self) -> dict[int, Entry]:
        return _by_pk(Entry.objects.in_garage(self.garage).select_related("event__garage", "vehicle"))

    @cached_property
    def events(self) -> dict[int, Event]:
        return _by_pk(Event.objects.in_garage(self.garage))

    @cached_property
    def vehicles(self) -> dict[int, Vehicle]:
        return _by_pk(Vehicle.objects.in_garage(self.garage).kept())


def _by_pk(rows: Any) -> dict[int, Any]:
    return {thing.pk: thing for thing in rows}
