"""What room the stations have now, what is done on the cars, and why a job cannot be begun there."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field
from itertools import product
from typing import Protocol

from builds.work.engine.apart import APART, Apart, OnCar


class Beginning(OnCar, Protocol):
    """A job that somebody would begin."""

    @property
    def pk(self) -> int: ...

    @property
    def vehicle_id(self) -> int: ...


@dataclass(frozen=True)
class StationRoom:
    """A station as far as room in it goes; a car `stands` in it, or it is a bench or a tool."""

    pk: int
    name: str
    capacity: int
    stands: bool


@dataclass(frozen=True)
class Occupied:
    """So many units of a station (pk) that a car (pk) has, because of a job (title).

    `job` and its `crew` (pk) for work in hand; without them the car stands there stripped until `title` is done.
    """

    station: int
    car: int
    car_name: str
    units: int
    title: str
    job: int = 0
    crew: frozenset[int] = frozenset()

    @property
    def why(self) -> str:
        """To be read after the name of the station or of the car."""
        if self.job:
            return f"“{self.title}” on {self.car_name} is in hand there"
        return f"{self.car_name} stands there stripped until “{self.title}” is done"


@dataclass(frozen=True)
class InHand:
    """A job (pk, title) in hand on a car: its kinds of work (slugs), its hands, and whose (pk) they are.

    `whole`: it is not left half done. `begun`, or `found_open` before anybody did.
    """

    job: int
    title: str
    car: int
    car_name: str
    kinds: frozenset[str]
    hands: int
    crew: frozenset[int]
    whole: bool = False
    begun: bool = True
    found_open: bool = False


@dataclass(frozen=True)
class StillInAir:
    """Work that is over, or put down, and keeps others out for some `minutes` more."""

    work: InHand
    minutes: int


@dataclass(frozen=True)
class RoomNow:
    """The `stations` (by pk) of a garage and who has room in them now; `uses` are the units of each by job (pk).

    `in_hand` is all that is worked on, at a station or not, `left_open` what nobody is at and leaves its car as
    it is meanwhile; `clearing` what went on a moment ago and is in the air still; jobs (pk) `outside` are not done
    in the shop.
    """

    stations: Mapping[int, StationRoom] = field(default_factory=dict)
    occupied: tuple[Occupied, ...] = ()
    uses: Mapping[int, Mapping[int, int]] = field(default_factory=dict)
    in_hand: tuple[InHand, ...] = ()
    outside: frozenset[int] = frozenset()
    left_open: tuple[InHand, ...] = ()
    clearing: tuple[StillInAir, ...] = ()

    def clash(self, job: Beginning, hands: Collection[int]) -> str:
        """Why these people (pk) cannot begin the job now, in a sentence; empty when they can.

        What only they have in hand is no reason: they put it down when they begin something else. But what is
        not left half done they finish, or put down themselves.
        """
        theirs, car = frozenset(hands), job.vehicle_id
        if beside := self._beside(job, theirs) or self._half_done(job, theirs):
            return beside
        others = [one for one in self.occupied if not (one.job and _ends(one, theirs)) and one.job != job.pk]
        uses = self.uses.get(job.pk, {})
        for station, units in sorted(uses.items()):
            if taken := self._taken(self.stations[station], car, units, others):
                return taken
        if any(self.stations[station].stands for station in uses):
            return self._elsewhere(car, uses, others)
        return ""

    def _beside(self, job: Beginning, theirs: frozenset[int]) -> str:
        """What is in hand on the same car, or in the same shop, and is not done beside the job; or left open there."""
        for other, rule in product(self.in_hand, APART):
            if self._apart(rule, job, other) and not (rule.ends_at_once and _ends(other, theirs)):
                return f"“{other.title}” on {other.car_name} is in hand: {rule.why}."
        for other, rule in product(self.left_open, APART):
            if rule.bars(other, job, begun=other.begun) and self._apart(rule, job, other):
                how = "is begun and not done" if other.begun else "is not done"
                return f"“{other.title}” on {other.car_name} {how}: {rule.why}."
        for still, rule in product(self.clearing, APART):
            other = still.work
            if rule.clears and rule.is_alone(other) and self._apart(rule, job, other):
                said = f"“{other.title}” on {other.car_name} went on a moment ago: {rule.why}, in about"
                return f"{said} {still.minutes} min. That is a guess: the sheet of the paint says how long."
        return ""

    def stops(self) -> dict[int, str]:
        """Of each job (pk) in hand that must stop for what somebody found or opened meanwhile, why, in a sentence."""
        told: dict[int, str] = {}
        for work, other, rule in product(self.in_hand, (*self.left_open, *self.in_hand), APART):
            begun = other.begun or other in self.in_hand
            if rule.bars(other, work, begun=begun) and self._meet(rule, work.job, work.car, other):
                open_there = f"{rule.called(other.car_name)} {rule.while_alone}, by “{other.title}”"
                told.setdefault(
                    work.job, f"Stop “{work.title}” on {work.car_name}: {open_there}. {rule.why.capitalize()}."
                )
        return told

    def _half_done(self, job: Beginning, theirs: frozenset[int]) -> str:
        """What would be put down with it, and is not left half done."""
        for other in self.in_hand:
            if other.job != job.pk and other.whole and _ends(other, theirs):
                return f"“{other.title}” on {other.car_name} is in hand, and is not left half done: finish it first."
        return ""

    def _apart(self, rule: Apart, job: Beginning, other: InHand) -> bool:
        """Whether the rule keeps the two apart, and they are done where it goes for both."""
        return self._meet(rule, job.pk, job.vehicle_id, other) and rule.keeps_apart(job, other)

    def _meet(self, rule: Apart, job: int, car: int, other: InHand) -> bool:
        inside = self.outside.isdisjoint({job, other.job})
        return other.job != job and rule.meets(same_car=other.car == car, inside=inside)

    def _taken(self, station: StationRoom, car: int, units: int, others: Iterable[Occupied]) -> str:
        here = [one for one in others if one.station == station.pk]
        cars = {one.car for one in here} | {car}
        if sum(_units(mine, here, units if mine == car else 0) for mine in cars) <= station.capacity:
            return ""
        first = min(here, key=lambda one: (one.car == car, not one.job, one.title), default=None)
        return f"{station.name} is taken: {first.why}." if first else f"{station.name} has no room for it."

    def _elsewhere(self, car: int, uses: Mapping[int, int], others: Iterable[Occupied]) -> str:
        """A car stands in one station at a time."""
        for one in others:
            station = self.stations[one.station]
            if one.car == car and station.stands and station.pk not in uses:
                return f"{one.car_name} is elsewhere, in {station.name}: {one.why}."
        return ""


def _ends(work: Occupied | InHand, theirs: frozenset[int]) -> bool:
    """Whether only these people (pk) have it in hand."""
    return bool(work.crew) and work.crew <= theirs


def _units(car: int, here: Iterable[Occupied], more: int) -> int:
    """What a car takes of a station: its jobs there lie within what it keeps as long as it stands stripped."""
    mine = [one for one in here if one.car == car]
    worked = sum(one.units for one in mine if one.job) + more
    return max([worked, *(one.units for one in mine if not one.job)])
