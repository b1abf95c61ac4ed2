"""What room the stations of a garage have now, and what is done on its cars."""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import datetime, timedelta
from typing import NamedTuple

from django.db.models import Exists, OuterRef, QuerySet

from builds.work.engine.apart import AIR_MINUTES, APART, FUEL, LEAVES_OPEN, OUTSIDE, SPRAYS
from builds.work.engine.half_done import is_kept_whole
from builds.work.engine.open_work import Work
from builds.work.engine.room_now import InHand, Occupied, RoomNow, StationRoom, StillInAir
from builds.work.models.job import Job, JobStation, names_any
from builds.work.models.link import StationHold
from builds.work.models.span import Span
from builds.work.models.states import OPEN_STATES, State
from garage.models import Garage, Membership, Station
from garage.remembered import remembered


class JobUse(NamedTuple):
    """That a job uses so much of a station (pk); until its `morning` it is done at an event."""

    job: int
    units: int
    morning: datetime | None
    station: int
    slug: str
    name: str
    capacity: int
    stands: bool


def room_in(garage: Garage, work: Work) -> RoomNow:
    """With the work of the garage as it was loaded; three queries at most, none where it is remembered."""
    jobs = work.jobs.values()
    in_hand = (_in_hand(job, work.crew(job.pk)) for job in jobs if job.state == State.IN_HAND)
    left_open = (_at_rest(job, work.put_down(job.pk)) for job in jobs if work.rests(job.pk))
    clearing = sprayed_lately(garage, work.at)
    away = {job.pk for job in jobs if job.night and work.at < job.night.due_at}
    uses = remembered(garage, "open_uses", lambda: _open_uses(garage.pk))
    holds = remembered(garage, "stripped", lambda: _holds(garage.pk)) if uses else []
    room = _room(tuple(in_hand), work.at, away, uses, holds)
    return replace(room, left_open=tuple(filter(_stays_open, left_open)), clearing=clearing)


def room_now(garage: int, at: datetime) -> RoomNow:
    """Of a garage (pk), with the work in hand as it is now, which is `at` (aware); six queries at most."""
    spans = Span.objects.in_garage(garage).worked().running().select_related("job__vehicle").prefetch_related("crew")
    away = Job.objects.in_garage(garage).open().filter(night__due_at__gt=at).values_list("pk", flat=True)
    in_hand = tuple(_in_hand(span.job, span.people) for span in spans)
    uses = _open_uses(garage)
    room = _room(in_hand, at, away, uses, _holds(garage) if uses else [])
    left_open = tuple(filter(_stays_open, _resting(garage)))
    return replace(room, left_open=left_open, clearing=tuple(clearing_at(sprayed(garage, at), at)))


def sprayed_lately(garage: Garage, at: datetime) -> tuple[StillInAir, ...]:
    """What is in the air now; one query where it is not remembered."""
    return tuple(clearing_at(remembered(garage, "sprayed", lambda: sprayed(garage.pk, at)), at))


def sprayed(garage: int, at: datetime) -> list[Span]:
    """Stretches of work in the shop of a garage (pk) after which the air may not have cleared."""
    spans = Span.objects.in_garage(garage).worked().filter(until_at__gt=at - timedelta(minutes=AIR_MINUTES))
    outside = Exists(JobStation.objects.filter(job=OuterRef("job"), station__slug__in=OUTSIDE))
    inside = spans.filter(~outside, job__night=None).select_related("job__vehicle")
    return [span for span in inside if not SPRAYS.isdisjoint(span.job.kinds)]


def clearing_at(spans: Iterable[Span], at: datetime) -> Iterator[StillInAir]:
    for span in spans:
        ended = span.until_at or at
        left = ended + timedelta(minutes=AIR_MINUTES) - at
        if ended <= at < at + left:  # what is written down of the day before knows nothing of the day after
            yield StillInAir(_in_hand(span.job, ()), -(-left // timedelta(minutes=1)))


def _resting(garage: int) -> Iterator[InHand]:
    """What nobody is at, of what may leave a car with its fuel open."""
    worked = Exists(Span.objects.worked().filter(job=OuterRef("pk")))
    rows = Job.objects.in_garage(garage).open().filter(finished_at=None).exclude(state=State.IN_HAND).with_texts()
    opens = rows.filter(names_any("kinds", LEAVES_OPEN) | names_any("systems", [FUEL])).annotate(worked=worked)
    return (_at_rest(job, job.state == State.WAITING or job.worked) for job in opens.select_related("vehicle"))


def _at_rest(job: Job, begun: bool) -> InHand:
    return replace(_in_hand(job, ()), begun=begun)


def _stays_open(job: InHand) -> bool:
    return any(rule.leaves_open(job, begun=job.begun) for rule in APART)


def _in_hand(job: Job, crew: Iterable[Membership]) -> InHand:
    """Car attached."""
    hands = frozenset(member.pk for member in crew)
    car, count = job.vehicle, len(hands) or job.hands
    return InHand(
        job.pk,
        job.title,
        car.pk,
        car.name,
        frozenset(job.kinds),
        count,
        hands,
        whole=is_kept_whole(job),
        found_open=job.found_open,
    )


def uses_of(garage: Garage, job: Job) -> list[JobUse]:
    """What stations a job uses; one query, none for an open one where it is remembered."""
    if job.state in OPEN_STATES:
        return [use for use in remembered(garage, "open_uses", lambda: _open_uses(garage.pk)) if use.job == job.pk]
    return _uses(JobStation.objects.filter(job=job))


def _open_uses(garage: int) -> list[JobUse]:
    return _uses(JobStation.objects.in_garage(garage).filter(job__state__in=OPEN_STATES))


def _uses(rows: QuerySet[JobStation]) -> list[JobUse]:
    station = ("station_id", "station__slug", "station__name", "station__capacity", "station__stands")
    told = rows.order_by("pk").values_list("job_id", "units", "job__night__due_at", *station)
    return [JobUse(*use) for use in told]


def _room(
    in_hand: tuple[InHand, ...],
    at: datetime,
    away: Iterable[int],
    open_uses: Iterable[JobUse],
    holds: list[StationHold],
) -> RoomNow:
    """`away` are jobs (pk) done in the paddock, `holds` what stripped cars hold."""
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
    stations |= {hold.station_id: _station(hold.station) for hold in holds}
    occupied = (*_worked_in(in_hand, uses), *map(_stripped, holds))
    return RoomNow(stations, occupied, uses, in_hand, frozenset(outside))


def _station(station: Station) -> StationRoom:
    return StationRoom(station.pk, station.name, station.capacity, station.stands)


def _worked_in(in_hand: Iterable[InHand], uses: dict[int, dict[int, int]]) -> Iterator[Occupied]:
    for work in in_hand:
        for station, units in uses[work.job].items():
            yield Occupied(station, work.car, work.car_name, units, work.title, work.job, work.crew)


def _holds(garage: int) -> list[StationHold]:
    """Of cars that are stripped, where nobody has freed the station."""
    holds = StationHold.objects.in_garage(garage).keeping().stripped()
    open_ends = holds.filter(last__state__in=OPEN_STATES, last__vehicle__gone_at=None)
    return list(open_ends.select_related("station", "last__vehicle"))


def _stripped(hold: StationHold) -> Occupied:
    car = hold.last.vehicle
    return Occupied(hold.station_id, car.pk, car.name, 1, hold.last.title)
