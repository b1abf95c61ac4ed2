"""What does not go together: two cars on one trailer, a van that is not fit, a car driven that must not be."""

from collections import defaultdict
from collections.abc import Callable, Hashable, Iterable, Iterator, Mapping
from dataclasses import dataclass

from builds.travel.engine.rides import DRIVEN, VAN, Ride
from builds.travel.engine.under_way import at_once
from builds.verdict.engine import Verdict
from garage.engine.words import listed_in_words


@dataclass(frozen=True, slots=True)
class TakerState:
    """How a vehicle stands: fit, not_fit or not_known; `first` is the worst that stands in its way."""

    state: str
    do_not_drive: bool = False
    first: str = ""


def taker_state(verdict: Verdict) -> TakerState:
    first = verdict.reasons[0].sentence if verdict.reasons else ""
    return TakerState(verdict.state, verdict.do_not_drive, first)


@dataclass(frozen=True, slots=True)
class Trouble:
    """A sentence for the `events` and `entries` (keys) that it concerns; `tells_who` goes to them."""

    sentence: str
    events: frozenset[int]
    entries: frozenset[int]
    tells_who: bool = False


def said_of_event(troubles: Iterable[Trouble], event: int) -> list[str]:
    """The sentences that concern an event (its key)."""
    return [trouble.sentence for trouble in troubles if event in trouble.events]


def said_of_entry(troubles: Iterable[Trouble], entry: int) -> list[str]:
    """The sentences that concern an entry (its key)."""
    return [trouble.sentence for trouble in troubles if entry in trouble.entries]


def troubles(rides: Iterable[Ride], states: Mapping[int, TakerState]) -> list[Trouble]:
    """Of entries that are coming; `states` by vehicle, for those that take a car and those that are driven.

    Where two cars share a trailer and what pulls it, that is said once.
    """
    going = [ride for ride in rides if ride.how]
    return [*_shared(going), *_takers(going, states), *_driven(going, states)]


def _shared(rides: list[Ride]) -> Iterator[Trouble]:
    by_trailer, by_taker = _by(rides, _trailer), _by(rides, _taker)
    said: set[frozenset[int]] = set()
    for key, group in [*by_trailer.items(), *by_taker.items()]:
        for together in at_once(group):
            entries = frozenset(ride.entry for ride in together)
            if not any(entries <= other for other in said):
                said.add(entries)
                yield _trouble(_said(together, of_trailer=key in by_trailer), together)


def _trailer(ride: Ride) -> Hashable:
    return ("trailer", ride.trailer.casefold()) if ride.trailer else None


def _taker(ride: Ride) -> Hashable:
    return ("taker", ride.taker) if ride.taker is not None and ride.how != DRIVEN else None


def _by(rides: list[Ride], key: Callable[[Ride], Hashable]) -> dict[Hashable, list[Ride]]:
    groups: dict[Hashable, list[Ride]] = defaultdict(list)
    for ride in rides:
        if (name := key(ride)) is not None:
            groups[name].append(ride)
    return groups


def _said(together: list[Ride], *, of_trailer: bool) -> str:
    first, cars = together[0], listed_in_words([ride.car_name for ride in together])
    many = f"{len(together)} cars" if len(together) > 2 else "Two cars"
    what = _what(first, of_trailer=of_trailer)
    if len({ride.event for ride in together}) == 1:
        return f"{many} {what}: {cars}."
    trips = listed_in_words([f"{ride.car_name} for {ride.event_name}" for ride in together])
    return f"{many} {what} at the same time: {trips}."


def _what(ride: Ride, *, of_trailer: bool) -> str:
    if of_trailer:
        return f"are on one trailer, “{ride.trailer}”"
    if ride.how == VAN:
        return f"are in one van, {ride.taker_name}"
    return f"are behind {ride.taker_name}"


def _takers(rides: list[Ride], states: Mapping[int, TakerState]) -> Iterator[Trouble]:
    for taken in _by(rides, _taker).values():
        state, name = states.get(taken[0].taker or 0), taken[0].taker_name
        if state is None or state.state == "fit":
            continue
        cars = listed_in_words(list(dict.fromkeys(ride.car_name for ride in taken)))
        yield _trouble(f"{name}, which takes {cars}, {_stands(state)}", taken)


def _driven(rides: list[Ride], states: Mapping[int, TakerState]) -> Iterator[Trouble]:
    for ride in rides:
        state = states.get(ride.car)
        if ride.how == DRIVEN and state is not None and state.do_not_drive:
            yield _trouble(f"{ride.car_name} is to be driven there, and must not be driven{_because(state)}", [ride])


def _stands(state: TakerState) -> str:
    if state.do_not_drive:
        return f"must not be driven{_because(state)}"
    if state.state == "not_known":
        return f"is not known to be fit to run{_because(state)}"
    return f"is not fit to run{_because(state)}"


def _because(state: TakerState) -> str:
    return f": {state.first.rstrip('.')}." if state.first else "."


def _trouble(sentence: str, rides: Iterable[Ride]) -> Trouble:
    concerned = list(rides)
    return Trouble(sentence, frozenset(ride.event for ride in concerned), frozenset(ride.entry for ride in concerned))
