"""A car is in one place: what it keeps of a station while it cannot be moved, and where it cannot be then."""

from builds.planner.problem import Hold, Link, Station
from tests.builds.planner.makers import PLACES, job, planned, spans, why


def test_no_other_car_uses_a_station_while_one_is_held_on_it():
    made = (
        job("strip", 2, uses={"bay": 1}, rank="safety"),
        job("weld", 2, rank="safety"),
        job("refit", 2, uses={"bay": 1}, rank="safety"),
        job("wash", 2, vehicle="moth", uses={"bay": 1}, hands=0),
    )
    links = (Link("strip", "weld"), Link("weld", "refit", 5))
    answer = planned(*made, links=links, holds=(Hold("heron", "bay", "strip", "refit"),))
    assert spans(answer)["refit"] == (9, 11)
    assert spans(answer)["wash"] == (11, 13)


def test_a_car_is_not_put_where_it_would_be_in_the_way_of_a_booking():
    made = (
        job("booked", 4, vehicle="moth", uses={"bay": 1}, hands=0, pinned=6),
        job("strip", 2, uses={"bay": 1}),
        job("refit", 2, uses={"bay": 1}),
    )
    links = (Link("strip", "refit", 4),)
    answer = planned(*made, links=links, holds=(Hold("heron", "bay", "strip", "refit"),))
    assert spans(answer) == {"booked": (6, 10), "strip": (10, 12), "refit": (16, 18)}


def test_a_car_that_cannot_be_finished_is_stripped_after_all_the_others():
    made = (
        job("strip", 2, uses={"bay": 1}, rank="safety"),
        job("weld", 2, skill="weld", rank="safety"),
        job("wash", 2, vehicle="moth", uses={"bay": 1}),
    )
    links = (Link("strip", "weld"),)
    answer = planned(*made, links=links, holds=(Hold("heron", "bay", "strip", "weld"),))
    assert spans(answer) == {"wash": (0, 2), "strip": (2, 4)}
    assert why(answer, "weld") == "Nobody has the skill “weld”: teach somebody, or find somebody who has it."


def test_a_stripped_car_in_a_bay_for_two_leaves_room_for_one():
    made = (
        job("strip", 2, uses={"bay": 1}, rank="safety"),
        job("weld", 2, uses={"bay": 1}, rank="safety"),
        job("refit", 2, uses={"bay": 1}, rank="safety"),
        job("wash", 3, vehicle="moth", uses={"bay": 1}, hands=0),
        job("polish", 3, vehicle="moth", uses={"bay": 1}, hands=0),
    )
    links = (Link("strip", "weld"), Link("weld", "refit", 5))
    keys = {"stations": (Station("bay", 2),), "links": links}
    answer = planned(*made, holds=(Hold("heron", "bay", "strip", "refit"),), **keys)
    assert spans(answer) == {"strip": (0, 2), "weld": (2, 4), "refit": (9, 11), "wash": (0, 3), "polish": (3, 6)}
    whole = planned(*made, holds=(Hold("heron", "bay", "strip", "refit", 2),), **keys)
    assert (spans(whole)["wash"], spans(whole)["polish"]) == ((11, 14), (11, 14))


def test_a_held_car_s_own_jobs_beyond_what_it_keeps_want_a_place_more():
    made = (
        job("strip", 6, hands=0, uses={"bay": 1}, rank="safety"),
        job("wash", 4, hands=0, vehicle="moth", uses={"bay": 1}, rank="safety"),
        job("wire", 2, uses={"bay": 1}, rank="wanted"),
    )
    keys = {"stations": (Station("bay", 2),), "holds": (Hold("heron", "bay", "strip", "strip"),)}
    assert spans(planned(*made, **keys)) == {"strip": (0, 6), "wash": (0, 4), "wire": (4, 6)}


def test_a_car_is_in_one_place_and_other_cars_elsewhere_meanwhile():
    made = (
        job("brakes", 3, hands=0, uses={"bay": 1}, rank="safety"),
        job("weigh", 2, hands=0, uses={"floor": 1}),
        job("level", 2, hands=0, vehicle="moth", uses={"floor": 1}, rank="wanted"),
        job("rig", 1, uses={"welder": 1}),
    )
    answer = planned(*made, stations=(*PLACES, Station("welder")))
    assert spans(answer) == {"brakes": (0, 3), "weigh": (3, 5), "level": (0, 2), "rig": (0, 1)}


def test_nobody_weighs_a_car_that_is_stripped_in_the_bay():
    made = (
        job("strip", 2, hands=0, uses={"bay": 1}, rank="safety"),
        job("weigh", 1, hands=0, uses={"floor": 1}),
        job("refit", 2, hands=0, uses={"bay": 1}, rank="safety"),
    )
    keys = {"stations": PLACES, "holds": (Hold("heron", "bay", "strip", "refit"),)}
    assert spans(planned(*made, links=(Link("strip", "refit", 6),), **keys))["weigh"] == (10, 11)
    booked = (made[0], job("weigh", 1, hands=0, uses={"floor": 1}, pinned=4), made[2])
    answer = planned(*booked, links=(Link("strip", "refit", 6),), **keys)
    assert spans(answer) == {"strip": (5, 7), "weigh": (4, 5), "refit": (13, 15)}


def a_strip_that_waits(wash=4, **keys):
    """Heron stripped in two slots, on which nothing can follow before slot 20, and Moth that wants the bay."""
    made = (
        job("strip", 2, uses={"bay": 1}, rank="safety", **keys),
        job("refit", 2, uses={"bay": 1}, rank="safety", earliest=20),
        job("wash", wash, vehicle="moth", uses={"bay": 1}),
    )
    links = (Link("strip", "refit"),)
    return spans(planned(*made, slots=60, links=links, holds=(Hold("heron", "bay", "strip", "refit"),)))


def test_no_car_is_stripped_days_before_anything_follows_while_another_wants_its_place():
    assert a_strip_that_waits() == {"wash": (0, 4), "strip": (4, 6), "refit": (20, 22)}


def test_it_is_stripped_at_once_where_that_is_due_or_the_other_work_is_longer_than_the_wait():
    assert a_strip_that_waits(due=3) == {"strip": (0, 2), "refit": (20, 22), "wash": (22, 26)}
    assert a_strip_that_waits(wash=30)["strip"] == (0, 2)
