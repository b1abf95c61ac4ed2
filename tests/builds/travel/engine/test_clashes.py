"""Two events at the same time that take the same car, or the same people."""

from datetime import timedelta

from builds.travel.engine import Trip, any_at_once, clashes
from tests.builds.travel.engine.test_rides import BADGER, HERON, OX, SATURDAY, TUG, ride

HOUR, DAY = timedelta(hours=1), timedelta(days=1)
PEOPLE = {1: "Ines", 2: "Tove"}


def trip(person, event, leaves=SATURDAY, hours=16):
    return Trip(person, PEOPLE[person], event, f"Event {event}", leaves, leaves + hours * HOUR)


ENTERED = [ride(BADGER), ride(OX, event=2), ride(TUG, event=3)]


def said(rides=(), trips=()):
    return [trouble.sentence for trouble in clashes(rides, trips)]


def test_a_car_entered_for_two_events_at_the_same_time_is_said():
    second = ride(HERON, event=2, how="", leaves=SATURDAY + 15 * HOUR)
    (trouble,) = clashes([ride(HERON, how=""), second], [])
    assert trouble.sentence == "Heron is entered for two events at the same time: Event 1 and Event 2."
    assert trouble.events == {1, 2}
    assert trouble.entries == {100 + HERON, 200 + HERON}


def test_a_car_that_is_back_as_it_leaves_again_makes_both():
    assert said([ride(HERON), ride(HERON, event=2, leaves=SATURDAY + 16 * HOUR)]) == []
    assert len(said([ride(HERON), ride(HERON, event=2, leaves=SATURDAY + 16 * HOUR - HOUR / 60)])) == 1


def test_cars_of_the_same_two_events_are_one_sentence():
    rides = [ride(car, event=event) for event in (1, 2) for car in (HERON, BADGER)]
    assert said(rides) == ["Heron and Badger are entered for two events at the same time: Event 1 and Event 2."]


def test_two_cars_at_two_events_are_no_clash():
    assert said([ride(HERON), ride(BADGER, event=2)]) == []


def test_people_are_in_one_place_too():
    (trouble,) = clashes(ENTERED, [trip(1, 1), trip(1, 2, SATURDAY + HOUR), trip(2, 2, SATURDAY + HOUR)])
    assert trouble.sentence == "Ines goes to two events at the same time: Event 1 and Event 2."
    assert trouble.events == {1, 2}
    assert not trouble.entries
    both = [trip(person, event) for event in (1, 2) for person in (1, 2)]
    assert said(ENTERED, both) == ["Ines and Tove go to two events at the same time: Event 1 and Event 2."]
    assert said(ENTERED, [trip(1, 1), trip(1, 2, SATURDAY + DAY)]) == []


def test_three_at_once_are_one_sentence():
    three = [trip(1, event, SATURDAY + event * HOUR) for event in (1, 2, 3)]
    assert said(ENTERED, three) == ["Ines goes to three events at the same time: Event 1, Event 2 and Event 3."]


def test_an_event_for_which_no_car_is_entered_wants_nobody():
    assert said(ENTERED[:1], [trip(1, 1), trip(1, 2)]) == []


def test_whether_any_two_events_are_at_once():
    assert any_at_once(ENTERED)
    assert not any_at_once([ride(HERON), ride(BADGER)])
    assert not any_at_once([ride(HERON), ride(BADGER, event=2, leaves=SATURDAY + DAY)])
