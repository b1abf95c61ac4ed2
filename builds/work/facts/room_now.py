"""What room the stations of a garage have now, and what is done on its cars."""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import datetime
from typing import NamedTuple

from django.db.models import Exists, OuterRef, Q

from builds.work.engine.apart import FUEL_OPEN, OUTSIDE
from builds.work.engine.half_done import is_kept_whole
from builds.work.engine.open_work import Work
from builds.work.engine.room_now import InHand, Occupied, RoomNow, StationRoom
from builds.work.models.job import Job, JobStation, names_any
from builds.work.models.link import StationHold
from builds.work.models.span import Span
from builds.work.models.states import OPEN_STATES, State
from garage.models import Garage, Membership, Station
from garage.remembered import remembered


class OpenUse(NamedTuple):
    """That an open job uses so much of a station (pk); until its `morning` it is done at an event."""

    job: int
    units: int
    morning: datetime | None
    station: int
    slug: str
    name: str
    capacity: int
    stands: bool


def room_in(garage: Garage, work: Work) -> RoomNow:
    """With the work of the garage as it was loaded; two queries at most, one where it is remembered."""
    jobs = work.jobs.values()
    in_hand = (_in_hand(job, work.crew(job.pk)) for job in jobs if job.state == State.IN_HAND)
    left_open = (_in_hand(job, ()) for job in jobs if work.put_down(job.pk) and not FUEL_OPEN.isdisjoint(job.kinds))
    away = {job.pk for job in jobs if job.night and work.at < job.night.due_at}
    uses = remembered(garage, "open_uses", lambda: _open_uses(garage.pk))
    return replace(_room(garage.pk, tuple(in_hand), work.at, away, uses), left_open=tuple(left_open))


def room_now(garage: int, at: datetime) -> RoomNow:
    """Of a garage (pk), with the work in hand as it is now, which is `at` (aware); six queries at most."""
    spans = Span.objects.in_garage(garage).worked().running().select_related("job__vehicle").prefetch_related("crew")
    away = Job.objects.in_garage(garage).open().filter(night__due_at__gt=at).values_list("pk", flat=True)
    in_hand = tuple(_in_hand(span.job, span.people) for span in spans)
    room = _room(garage, in_hand, at, away, _open_uses(garage))
    return replace(room, left_open=tuple(_in_hand(job, ()) for job in _left_open(garage)))


def _left_open(garage: int) -> Iterable[Job]:
    """Jobs that were begun and put down, and leave a car with its fuel open."""
    worked = Exists(Span.objects.worked().filter(job=OuterRef("pk")))
    begun = Job.objects.in_garage(garage).open().filter(Q(state=State.WAITING) | worked, finished_at=None)
    opens = begun.with_texts().filter(names_any("kinds", FUEL_OPEN))
    return opens.exclude(state=State.IN_HAND).select_related("vehicle")


def _in_hand(job: Job, crew: Iterable[Membership]) -> InHand:
    """Car attached."""
    hands = frozenset(member.pk for member in crew)
    car, count = job.vehicle, len(hands) or job.hands
    return InHand(job.pk, job.title, car.pk, car.name, frozenset(job.kinds), count, hands, is_kept_whole(job))


def _open_uses(garage: int) -> list[OpenUse]:
    rows = JobStation.objects.in_garage(garage).filter(job__state__in=OPEN_STATES).order_by("pk")
    station = ("station_id", "station__slug", "station__name", "station__capacity", "station__stands")
    return [OpenUse(*use) for use in rows.values_list("job_id", "units", "job__night__due_at", *station)]


def _room(
    garage: int, in_hand: tuple[InHand, ...], at: datetime, away: Iterable[int], open_uses: Iterable[OpenUse]
) -> RoomNow:
    """`away` are jobs (pk) done in the paddock."""
    outside = set(away)
    uses: dict[int, dict[int, int]] = defaultdict(dict)
    stations: dict[int, StationRoom] = {}
    for use in open_uses:
        if use.morning is None or use.morning <= at:
            uses[use.job][use.station] = use.units
            stations[use.station] = StationRoom(use.station, use.name, use.capacity, use.stands)
            if use.slug in OUTSIDE:
                outside.add(use.job)
    if not uses:
        return RoomNow(in_hand=in_hand, outside=frozenset(outside))
    holds = list(_holds(garage))
    stations |= {hold.station_id: _station(hold.station) for hold in holds}
    occupied = (*_worked_in(in_hand, uses), *map(_stripped, holds))
    return RoomNow(stations, occupied, uses, in_hand, frozenset(outside))


def _station(station: Station) -> StationRoom:
    return StationRoom(station.pk, station.name, station.capacity, station.stands)


def _worked_in(in_hand: Iterable[InHand], uses: dict[int, dict[int, int]]) -> Iterator[Occupied]:
    for work in in_hand:
        for station, units in uses[work.job].items():
            yield Occupied(station, work.car, work.car_name, units, work.title, work.job, work.crew)


def _holds(garage: int) -> Iterable[StationHold]:
    """Of cars that are stripped, where nobody has freed the station."""
    holds = StationHold.objects.in_garage(garage).keeping().stripped()
    open_ends = holds.filter(last__state__in=OPEN_STATES, last__vehicle__gone_at=None)
    return open_ends.select_related("station", "last__vehicle")


def _stripped(hold: StationHold) -> Occupied:
    car = hold.last.vehicle
    return Occupied(hold.station_id, car.pk, car.name, 1, hold.last.title)
