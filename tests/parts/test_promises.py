"""What is on the shelf goes by urgency, then by date, then by who asked first."""

from datetime import timedelta

from parts.engine.promises import Want, picks, share_out
from tests.factories import NOW

SOON, LATER = NOW + timedelta(days=3), NOW + timedelta(days=30)


def want(number, rank="needed", due=SOON, quantity=1, asked=0, part=1):
    return Want(number, part, quantity, rank, due, NOW + timedelta(hours=asked))


def test_the_safety_job_gets_the_last_one_though_it_asked_last():
    found = share_out({1: 1}, [want(1, asked=0), want(2, "safety", due=LATER, asked=5)])
    assert (found[2].promised, found[1].promised) == (1, 0)
    assert found[1].behind == (2,)


def test_among_equals_the_nearest_event_then_the_first_asked():
    found = share_out({1: 2}, [want(1, due=None), want(2, due=LATER), want(3), want(4, asked=1)])
    assert [number for number in found if found[number].promised] == [3, 4]


def test_a_want_takes_what_is_left_of_it():
    found = share_out({1: 3}, [want(1, quantity=2), want(2, quantity=2, asked=1)])
    assert (found[2].promised, found[2].short, found[2].behind) == (1, 1, (1,))


def test_parts_do_not_mix_and_what_is_not_held_is_short():
    found = share_out({1: 1}, [want(1, part=2), want(2)])
    assert (found[1].short, found[1].behind, found[2].promised) == (1, (), 1)


def test_the_most_urgent_take_from_the_first_place_on_the_way_round():
    stock = {1: [(10, 2), (20, 5)]}
    found = picks(stock, [want(1, quantity=3), want(2, "safety", quantity=1)])
    assert [(pick.place, pick.quantity) for pick in found[2]] == [(10, 1)]
    assert [(pick.place, pick.quantity) for pick in found[1]] == [(10, 1), (20, 2)]


def test_nobody_takes_more_than_there_is():
    found = picks({1: [(10, 1)]}, [want(1, quantity=3), want(2, asked=1), want(3, part=2)])
    assert [sum(pick.quantity for pick in found[number]) for number in (1, 2, 3)] == [1, 0, 0]
