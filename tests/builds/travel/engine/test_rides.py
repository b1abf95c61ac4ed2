"""How a car gets to its event, and every sentence on what does not go together."""

from datetime import UTC, datetime, timedelta

import pytest

from builds.travel.engine import Ride, TakerState, ride_words, troubles

SATURDAY = datetime(2027, 3, 13, 5, tzinfo=UTC)
HERON, BADGER, MOTH, TUG, OX = range(1, 6)
NAMES = {HERON: "Heron", BADGER: "Badger", MOTH: "Moth", TUG: "Tug", OX: "Ox"}


def ride(car, how="trailer", taker=TUG, trailer="", event=1, leaves=SATURDAY, hours=16):
    return Ride(
        entry=100 * event + car,
        event=event,
        event_name=f"Event {event}",
        car=car,
        car_name=NAMES[car],
        leaves=leaves,
        back=leaves + timedelta(hours=hours),
        how=how,
        taker=taker,
        taker_name=NAMES.get(taker, ""),
        trailer=trailer,
    )


def said(*rides, **states):
    by_car = {number: states[name] for number, name in NAMES.items() if name in states}
    return [trouble.sentence for trouble in troubles(rides, by_car)]


@pytest.mark.parametrize(
    "given, words",
    [
        (ride(HERON, "driven", None), "driven on the road"),
        (ride(HERON, "van", None), "in a van"),
        (ride(HERON, "van"), "in Tug"),
        (ride(HERON, taker=None), "on a trailer"),
        (ride(HERON), "on a trailer behind Tug"),
        (ride(HERON, trailer="the long one", taker=None), "on the trailer “the long one”"),
        (ride(HERON, trailer="the long one"), "on the trailer “the long one” behind Tug"),
        (ride(HERON, "", None), ""),
    ],
)
def test_words(given, words):
    assert ride_words(given) == words


def test_two_cars_on_one_trailer_are_said_once_whatever_pulls_it():
    long, same = "the long one", "The Long One"
    assert said(ride(HERON, trailer=long), ride(BADGER, trailer=same)) == [
        "Two cars are on one trailer, “the long one”: Heron and Badger."
    ]
    assert said(ride(HERON, trailer=long, taker=TUG), ride(BADGER, trailer=long, taker=OX)) == [
        "Two cars are on one trailer, “the long one”: Heron and Badger."
    ]
    assert said(*(ride(car, trailer=long) for car in (HERON, BADGER, MOTH))) == [
        "3 cars are on one trailer, “the long one”: Heron, Badger and Moth."
    ]


def test_one_van_takes_one_car():
    assert said(ride(HERON), ride(BADGER)) == ["Two cars are behind Tug: Heron and Badger."]
    assert said(ride(HERON, trailer="long"), ride(BADGER, trailer="short")) == [
        "Two cars are behind Tug: Heron and Badger."
    ]
    assert said(ride(HERON, "van"), ride(BADGER, "van")) == ["Two cars are in one van, Tug: Heron and Badger."]


def test_cars_that_do_not_share_anything_are_no_trouble():
    assert said(ride(HERON, trailer="long"), ride(BADGER, taker=OX, trailer="short"), ride(MOTH, "driven", None)) == []
    assert said(ride(HERON, taker=None), ride(BADGER, taker=None)) == []
    assert said(ride(HERON, "", None), ride(BADGER, "", None)) == []


@pytest.mark.parametrize("hours_later, overlap", [(0, True), (15, True), (16, False), (40, False)])
def test_one_van_for_two_events_at_the_same_time(hours_later, overlap):
    other = ride(MOTH, event=2, leaves=SATURDAY + timedelta(hours=hours_later))
    sentence = "Two cars are behind Tug at the same time: Heron for Event 1 and Moth for Event 2."
    found = troubles([ride(HERON), other], {})
    assert [trouble.sentence for trouble in found] == ([sentence] if overlap else [])
    assert all(trouble.events == {1, 2} for trouble in found)


def test_of_three_trips_each_two_that_overlap_are_said():
    """A long one over two short ones, that come one after the other."""
    long, later = ride(BADGER, event=2, hours=60), ride(MOTH, event=3, leaves=SATURDAY + timedelta(hours=40))
    assert said(ride(HERON), long, later) == [
        "Two cars are behind Tug at the same time: Heron for Event 1 and Badger for Event 2.",
        "Two cars are behind Tug at the same time: Badger for Event 2 and Moth for Event 3.",
    ]


def test_a_van_that_is_not_fit_is_said_with_what_it_takes():
    fit = TakerState("fit")
    assert said(ride(HERON), Tug=fit) == []
    assert said(ride(HERON), Tug=TakerState("not_fit", first="“Brake hoses” is open.")) == [
        "Tug, which takes Heron, is not fit to run: “Brake hoses” is open."
    ]
    assert said(ride(HERON), Tug=TakerState("not_known", first="Wheel torque was never read.")) == [
        "Tug, which takes Heron, is not known to be fit to run: Wheel torque was never read."
    ]
    assert said(ride(HERON), Tug=TakerState("not_fit", True, "A hold point is open.")) == [
        "Tug, which takes Heron, must not be driven: A hold point is open."
    ]


def test_of_a_vehicle_that_takes_nothing_nothing_is_said():
    bad = TakerState("not_fit", True, "A hold point is open.")
    assert said(ride(HERON, taker=None), Tug=bad) == []
    assert said(ride(HERON, "driven", None), Tug=bad) == []


def test_a_car_that_is_driven_there_must_be_one_that_may_be_driven():
    bad = TakerState("not_fit", True, "A hold point is open.")
    assert said(ride(HERON, "driven", None), Heron=bad) == [
        "Heron is to be driven there, and must not be driven: A hold point is open."
    ]
    assert said(ride(HERON, "driven", None), Heron=TakerState("not_fit", False, "Seat: wanted")) == []
    assert said(ride(HERON, trailer="long"), Heron=bad, Tug=TakerState("fit")) == []
