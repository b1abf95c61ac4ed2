"""What room the stations of a garage have now."""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from datetime import datetime
from typing import NamedTuple

from builds.work.engine.room_now import Occupied, RoomNow, StationRoom
from builds.work.facts.work import Work
from builds.work.models.job import Job, JobStation
from builds.work.models.link import StationHold
from builds.work.models.span import Span
from builds.work.models.states import OPEN_STATES, State
from garage.models import Garage, Station
from garage.remembered import remembered


class OpenUse(NamedTuple):
    """That an open job uses so much of a station (pk); until its `morning` it is done at an event."""

    job: int
    units: int
    morning: datetime | None
    station: int
    name: str
    capacity: int
    stands: bool


# Jobs in hand, cars attached, and whose (pk) hands are on each.
InHand = Iterable[tuple[Job, Iterable[int]]]


def room_in(garage: Garage, work: Work) -> RoomNow:
    """With the work of the garage as it was loaded; two queries at most, one where it is remembered."""
    jobs = work.jobs.values()
    in_hand = ((job, [member.pk for member in work.crew(job.pk)]) for job in jobs if job.state == State.IN_HAND)
    return _room(garage.pk, in_hand, work.at, remembered(garage, "open_uses", lambda: _open_uses(garage.pk)))


def room_now(garage: int, at: datetime) -> RoomNow:
    """Of a garage (pk), with the work in hand as it is now, which is `at` (aware); four queries at most."""
    spans = Span.objects.in_garage(garage).worked().running().select_related("job__vehicle").prefetch_related("crew")
    in_hand = ((span.job, [member.pk for member in span.crew.all()]) for span in spans)
    return _room(garage, in_hand, at, _open_uses(garage))


def _open_uses(garage: int) -> list[OpenUse]:
    rows = JobStation.objects.in_garage(garage).filter(job__state__in=OPEN_STATES).order_by("pk")
    station = ("station_id", "station__name", "station__capacity", "station__stands")
    return [OpenUse(*use) for use in rows.values_list("job_id", "units", "job__night__due_at", *station)]


def _room(garage: int, in_hand: InHand, at: datetime, open_uses: Iterable[OpenUse]) -> RoomNow:
    uses: dict[int, dict[int, int]] = defaultdict(dict)
    stations: dict[int, StationRoom] = {}
    for use in open_uses:
        if use.morning is None or use.morning <= at:
            uses[use.job][use.station] = use.units
            stations[use.station] = StationRoom(use.station, use.name, use.capacity, use.stands)
    if not uses:
        return RoomNow()
    holds = list(_holds(garage))
    stations |= {hold.station_id: _station(hold.station) for hold in holds}
    return RoomNow(stations, (*_worked_in(in_hand, uses), *map(_stripped, holds)), uses)


def _station(station: Station) -> StationRoom:
    return StationRoom(station.pk, station.name, station.capacity, station.stands)


def _worked_in(in_hand: InHand, uses: dict[int, dict[int, int]]) -> Iterator[Occupied]:
    for job, crew in in_hand:
        for station, units in uses[job.pk].items():
            yield Occupied(station, job.vehicle_id, job.vehicle.name, units, job.title, job.pk, frozenset(crew))


def _holds(garage: int) -> Iterable[StationHold]:
    """Of cars that are stripped, where nobody has freed the station."""
    holds = StationHold.objects.in_garage(garage).keeping().stripped()
    open_ends = holds.filter(last__state__in=OPEN_STATES, last__vehicle__gone_at=None)
    return open_ends.select_related("station", "last__vehicle")


def _stripped(hold: StationHold) -> Occupied:
    car = hold.last.vehicle
    return Occupied(hold.station_id, car.pk, car.name, 1, hold.last.title)
