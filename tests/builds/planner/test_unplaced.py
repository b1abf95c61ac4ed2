"""A job without a place says why, in one sentence a person can act on; the rest is planned."""

import pytest

from builds.planner.problem import Hold, Link, Station
from tests.builds.planner.makers import PLACES, job, person, planned, spans, why

UNPLACED = {
    "Nobody has the skill “weld”: teach somebody, or find somebody who has it.": (job("a", skill="weld"), {}),
    "Nobody of those who have it in hand has the skill “weld”.": (
        job("a", skill="weld", crew=("tove",)),
        {"people": (person("ines", "weld"), person("tove"))},
    ),
    "It uses 2 of bay, which has only 1.": (job("a", uses={"bay": 2}), {}),
    "From then on its car would take 2 of bay, which has only 1.": (
        job("a"),
        {"holds": (Hold("heron", "bay", "a", "b", 2),)},
    ),
    "Its car cannot stand in bay and in floor at once.": (
        job("a", uses={"bay": 1, "floor": 1}),
        {"stations": PLACES},
    ),
    "It wants 3 people at once, and there is only 1.": (job("a", hands=3), {}),
    "It wants 1 person, and there is nobody.": (job("a"), {"people": ()}),
    "ines and tove are never in at the same time: agree on hours.": (
        job("a", hands=2),
        {"people": (person("ines", windows=((0, 8),)), person("tove", windows=((8, 16),)))},
    ),
    "ines and tove or ada are never in at the same time: agree on hours.": (
        job("a", hands=2, skill="weld"),
        {
            "people": (
                person("ines", "weld", windows=((0, 8),)),
                person("tove", windows=((8, 16),)),
                person("ada", windows=((8, 20),)),
            )
        },
    ),
    "No 2 of the people who could do it are ever in at the same time: agree on hours.": (
        job("a", hands=2),
        {"people": tuple(person(name, windows=((8 * k, 8 * k + 8),)) for k, name in enumerate(("a", "b", "c")))},
    ),
    "ines is never in while bay is open.": (
        job("a", uses={"bay": 1}),
        {"people": (person("ines", windows=((0, 8),)),), "stations": (Station("bay", 1, ((8, 20),)),)},
    ),
    "Nobody with the skill “weld” is ever in during the hours it may be worked at.": (
        job("a", skill="weld", windows=((8, 20),)),
        {"people": tuple(person(name, "weld", windows=((0, 8),)) for name in ("ines", "tove"))},
    ),
    "bay and welder are never open at the same time.": (
        job("a", uses={"bay": 1, "welder": 1}),
        {"stations": (Station("bay", 1, ((0, 8),)), Station("welder", 1, ((8, 20),)))},
    ),
    "It needs 1 h in one go, and the longest session for it is 45 min: let it be split, or give it a longer session.": (
        job("a", 4, splits=False),
        {"people": (person("ines", windows=((0, 3), (5, 8))),)},
    ),
    "It needs 1 h, and the people who could do it are never in that long within the plan.": (
        job("a", 4),
        {"people": (person("ines", windows=((0, 3),)),)},
    ),
    "It needs 1 h, and there is only 30 min when it may be worked at and its stations are open.": (
        job("a", 4, windows=((0, 2),)),
        {},
    ),
    "It needs 1 h, and there is no time when it may be worked at and its stations are open.": (
        job("a", 4, windows=()),
        {},
    ),
    "From slot 10 on ines and tove are never in at the same time: agree on hours.": (
        job("a", hands=2, earliest=10),
        {"people": (person("ines", windows=((0, 8),)), person("tove", windows=((0, 30),)))},
    ),
    "From slot 10 on nobody with the skill “weld” is ever in: add hours.": (
        job("a", skill="weld", earliest=10),
        {"people": (person("ines", "weld", windows=((0, 8),)), person("ada", "weld", windows=((0, 4),)))},
    ),
    "The plan ends (slot 40) before it could be done after its earliest start.": (
        job("a", 4, earliest=38),
        {},
    ),
    "It is pinned to slot 50, when its people or stations are not free for it.": (
        job("a", pinned=50),
        {},
    ),
    "It is pinned to slot 3, and its earliest start does not let it start by then.": (
        job("a", pinned=3, earliest=5),
        {},
    ),
}


@pytest.mark.parametrize("sentence", UNPLACED)
def test_a_job_without_a_place_says_what_would_help_and_so_does_what_waits_for_it(sentence):
    first, keys = UNPLACED[sentence]
    answer = planned(first, job("b"), links=(Link("a", "b"),), **keys)
    assert why(answer, "a") == sentence
    assert why(answer, "b") == "It waits for “a”, which has no place in the plan."


def test_more_work_than_hours_leaves_the_least_urgent_out():
    made = (job("brakes", 3, rank="safety"), job("wash", 3, rank="wanted"), job("oil", 3))
    answer = planned(*made, slots=7)
    assert spans(answer) == {"brakes": (0, 3), "oil": (3, 6)}
    assert why(answer, "wash").startswith("No room is left for its 45 min before the plan ends")


def test_a_job_that_wants_its_car_elsewhere_while_it_is_stripped_says_so():
    made = (
        job("strip", 2, uses={"bay": 1}),
        job("weigh", 1, uses={"floor": 1}),
        job("refit", 2, uses={"bay": 1}),
        job("wash", 2, vehicle="moth", uses={"bay": 1}),
    )
    links = (Link("strip", "weigh"), Link("weigh", "refit"))
    answer = planned(*made, links=links, stations=PLACES, holds=(Hold("heron", "bay", "strip", "refit"),))
    assert why(answer, "weigh") == (
        "It needs floor while its car stands stripped in bay, from “strip” to “refit”: do it before or after."
    )
    assert spans(answer) == {"wash": (0, 2), "strip": (2, 4)}


def test_what_a_car_that_is_never_put_together_is_in_the_way_of_says_so():
    made = (
        job("strip", 2, uses={"bay": 1}, rank="safety"),
        job("refit", 2, skill="fly", rank="safety"),
        job("weigh", 1, uses={"floor": 1}, earliest=10),
    )
    keys = {"stations": PLACES, "holds": (Hold("heron", "bay", "strip", "refit"),), "links": (Link("strip", "refit"),)}
    answer = planned(*made, **keys)
    assert spans(answer) == {"weigh": (10, 11), "strip": (11, 13)}
    there = job("strip", 0, hands=0, rank="wanted", pinned=0)
    answer = planned(there, *made[1:], job("wash", 2, vehicle="moth", uses={"bay": 1}), **keys)
    said = "stands stripped in bay to the end of the plan, because “refit” has no place in it."
    assert spans(answer) == {"strip": (0, 0)}
    assert (why(answer, "weigh"), why(answer, "wash")) == (f"Its car {said}", f"Heron {said}")


def test_a_car_that_would_stand_where_another_has_to_names_the_place():
    made = (
        job("wash", 2, vehicle="moth", uses={"bay": 1}, rank="safety", pinned=30),
        job("strip", 2, uses={"bay": 1}, windows=((0, 30),)),
        job("refit", 2, uses={"bay": 1}, skill="fly"),
    )
    keys = {"stations": PLACES, "holds": (Hold("heron", "bay", "strip", "refit"),), "links": (Link("strip", "refit"),)}
    assert why(planned(*made, **keys), "strip") == (
        "Its car would stand stripped in bay until after the plan ends (slot 40), or while another car needs the "
        "room: make room, or add hours."
    )
