"""A plan tampered with in any way is caught, with a sentence that names the job."""

from dataclasses import replace

import pytest

from builds.planner.check import faults, score
from builds.planner.plan import Placed, Plan, Unplaced
from builds.planner.problem import Hold, Link, Station
from tests.builds.planner.judge import breaches
from tests.builds.planner.makers import job, person, problem

READY = tuple(max(k + 3, 8) for k in range(41))
PROBLEM = problem(
    job("strip", 2, uses={"bay": 1}),
    job("weld", 4, skill="weld", windows=((0, 30),), earliest=2),
    job("prime", 1, hands=0, splits=False),
    job("refit", 2, hands=2, uses={"bay": 1}),
    job("gate", 2, pinned=30, vehicle="moth", hands=0, uses={"bay": 1}),
    job("wash", 2, vehicle="moth", crew=("tove",), rank="wanted", due=3),
    job("paint", 2, vehicle="moth", skill="spray"),
    people=(person("ines", "weld", windows=((0, 4), (6, 40))), person("tove")),
    stations=(Station("bay", 1, ((0, 20), (24, 40))),),
    links=(Link("strip", "weld"), Link("weld", "prime", 3, READY), Link("prime", "refit")),
    holds=(Hold("heron", "bay", "strip", "refit"),),
)
PLAN = Plan(
    placed=(
        Placed("strip", 0, 2, ("tove",)),
        Placed("weld", 2, 8, ("ines",)),
        Placed("wash", 2, 4, ("tove",)),
        Placed("prime", 11, 12, ()),
        Placed("refit", 12, 14, ("ines", "tove")),
        Placed("gate", 30, 32, ()),
    ),
    unplaced=(Unplaced("paint", "Nobody can spray."),),
)


def with_row(name: str, **changes) -> Plan:
    placed = tuple(replace(row, **changes) if row.id == name else row for row in PLAN.placed)
    return replace(PLAN, placed=placed)


def without(name: str) -> Plan:
    return replace(PLAN, placed=tuple(row for row in PLAN.placed if row.id != name))


def added(*rows: Placed, left: tuple[Unplaced, ...] = PLAN.unplaced) -> Plan:
    return Plan(placed=(*PLAN.placed, *rows), unplaced=left)


TAMPERED = {
    "“wash” is neither placed nor left unplaced.": without("wash"),
    "“wash” is placed twice.": added(Placed("wash", 20, 22, ("tove",))),
    "polish is placed, and there is no such job.": added(Placed("polish", 0, 0)),
    "polish is left unplaced, and there is no such job.": added(left=(*PLAN.unplaced, Unplaced("polish", "No."))),
    "“wash” is named twice: placed, or left unplaced.": added(left=(*PLAN.unplaced, Unplaced("wash", "No."))),
    "paint is left unplaced without a reason.": added(left=(Unplaced("paint", " "),)),
    "“paint” has nobody with the skill “spray”.": added(Placed("paint", 20, 22, ("tove",)), left=()),
    "“wash” is placed from 39 to 41, outside the plan.": with_row("wash", start=39, end=41),
    "“weld” starts at 0, before its earliest start 2.": with_row("weld", start=0),
    "“gate” starts at 31, and is pinned to 30.": with_row("gate", start=31, end=33),
    "“strip” has tug, who is unknown.": with_row("strip", people=("tug",)),
    "“refit” wants 2 people at once, and has 1.": with_row("refit", people=("tove", "tove")),
    "“prime” wants 0 people at once, and has 1.": with_row("prime", people=("tove",)),
    "“weld” has nobody with the skill “weld”.": with_row("weld", people=("tove",)),
    "“wash” has lost the people who have it in hand.": with_row("wash", people=("ines",)),
    "“weld” has 5 slots it can be worked in, and wants 4.": with_row("weld", end=9),
    "“weld” starts or ends in a slot it cannot be worked in.": with_row("weld", start=4, end=10),
    "“prime” is split, and must not be.": with_row("prime", end=14),
    "tove is on “strip” and “wash” at once.": with_row("wash", start=1, end=3),
    "“prime” starts at 9, and “weld”, ending at 8, opens it at 11.": with_row("prime", start=9, end=10),
    "“weld” is placed, and “strip” before it is not.": replace(
        without("strip"), unplaced=(*PLAN.unplaced, Unplaced("strip", "No."))
    ),
}


def test_the_plan_before_tampering_is_sound():
    links = (Link("strip", "weld"), Link("weld", "prime", 3), Link("prime", "refit"))
    assert faults(replace(PROBLEM, links=links), PLAN) == []


@pytest.mark.parametrize("sentence", TAMPERED)
def test_each_kind_of_tampering_is_caught(sentence):
    assert sentence in faults(PROBLEM, TAMPERED[sentence])


def test_more_than_a_station_holds_is_caught():
    rows = (Placed("a", 0, 3), Placed("b", 2, 5))
    made = problem(job("a", 3, 0, uses={"bay": 1}), job("b", 3, 0, uses={"bay": 1}))
    assert faults(made, Plan(rows)) == ["bay has 2 of 1 in use at slot 2."]


def test_another_car_inside_a_hold_is_caught():
    made = problem(
        job("strip", 1, 0, uses={"bay": 1}),
        job("refit", 1, 0),
        job("wash", 1, 0, vehicle="moth", uses={"bay": 1}),
        holds=(Hold("heron", "bay", "strip", "refit"),),
    )
    plan = Plan((Placed("strip", 0, 1), Placed("wash", 3, 4), Placed("refit", 5, 6)))
    assert faults(made, plan) == ["bay has 2 of 1 in use at slot 3: heron keeps 1 while it cannot be moved."]


HELD = problem(
    job("strip", 1, 0, uses={"bay": 1}),
    job("grind", 1, 0, uses={"bay": 2}),
    job("refit", 1, 0),
    job("wash", 2, 0, vehicle="moth", uses={"bay": 1}),
    job("polish", 1, 0, vehicle="moth", uses={"bay": 1}),
    stations=(Station("bay", 3),),
    holds=(Hold("heron", "bay", "strip", "refit", 2),),
)


def held(grind: int, wash: int, polish: int) -> Plan:
    spans = {"strip": (0, 1), "grind": (grind, grind + 1), "wash": (wash, wash + 2), "polish": (polish, polish + 1)}
    return Plan((*(Placed(name, *span) for name, span in spans.items()), Placed("refit", 5, 6)))


def test_a_held_car_keeps_its_units_its_own_jobs_included():
    assert faults(HELD, held(grind=1, wash=0, polish=2)) == []
    said = "bay has 4 of 3 in use at slot 3: heron keeps 2 while it cannot be moved."
    assert faults(HELD, held(grind=1, wash=2, polish=3)) == [said]
    assert faults(HELD, held(grind=0, wash=0, polish=2)) == ["bay has 4 of 3 in use at slot 0."]


def test_a_hold_whose_last_job_has_no_place_runs_to_the_horizon():
    plan = held(grind=1, wash=37, polish=38)
    unfinished = replace(plan, placed=plan.placed[:-1], unplaced=(Unplaced("refit", "No."),))
    assert faults(HELD, plan) == []
    said = "bay has 4 of 3 in use at slot 38: heron keeps 2 while it cannot be moved."
    assert faults(HELD, unfinished) == [said]


PLACES = (Station("bay", 2, stands=True), Station("floor", 1, stands=True), Station("welder", 1))


def test_a_car_in_two_places_at_once_is_caught():
    made = problem(
        job("strip", 2, 0, uses={"bay": 1}),
        job("weigh", 2, 0, uses={"floor": 1}),
        job("seam", 2, 0, uses={"welder": 1}),
        stations=PLACES,
    )
    plan = Plan((Placed("strip", 0, 2), Placed("weigh", 1, 3), Placed("seam", 0, 2)))
    said = "heron is in bay (for “strip”) and in floor (for “weigh”) at once, from slot 1."
    assert faults(made, plan) == [said]
    other = replace(made, jobs=(*made.jobs[:1], replace(made.jobs[1], vehicle="moth"), made.jobs[2]))
    assert faults(other, plan) == []


def test_a_car_that_is_held_stands_in_no_other_place():
    made = problem(
        job("strip", 1, 0, uses={"bay": 1}),
        job("refit", 1, 0),
        job("weigh", 2, 0, uses={"floor": 0}),
        stations=PLACES,
        holds=(Hold("heron", "bay", "strip", "refit"),),
    )
    plan = Plan((Placed("strip", 0, 1), Placed("weigh", 3, 5), Placed("refit", 6, 7)))
    said = "heron is in bay (held from “strip” until “refit”) and in floor (for “weigh”) at once, from slot 3."
    assert faults(made, plan) == [said]
    assert faults(made, replace(plan, placed=(plan.placed[0], Placed("weigh", 7, 9), plan.placed[2]))) == []


def test_ready_times_are_held_against_the_end_of_the_job_before():
    assert breaches(PROBLEM, with_row("prime", start=10, end=11)) == {"link"}
    table = tuple(k + 5 for k in range(41))
    late = replace(PROBLEM, links=(*PROBLEM.links, Link("weld", "prime", 3, table)))
    assert "“prime” starts at 11, and “weld”, ending at 8, opens it at 13." in faults(late, PLAN)


def test_the_score_counts_cars_ranks_and_ends_as_the_contract_does():
    made = problem(
        job("brakes", rank="safety", due=5, weight=2),
        job("oil", due=5),
        job("wash", rank="wanted", due=5, vehicle="moth", weight=3),
        job("spare", rank="wanted", vehicle="moth"),
    )
    plan = Plan(
        (Placed("brakes", 4, 6, ("ines",)), Placed("oil", 0, 2, ("ines",))),
        (Unplaced("wash", "No."), Unplaced("spare", "No.")),
    )
    assert score(made, plan) == (2, 2, 0, 3, 2 * 6, 3 * 6 + 2 + 40 + 40)
    assert score(replace(made, goal="finish"), plan) == (40,)


def test_a_car_s_end_is_that_of_its_last_safety_or_needed_job_with_a_due_slot():
    jobs = (
        job("brakes", rank="safety", due=30),
        job("oil", due=30),
        job("wash", rank="wanted", due=30),
        job("wire", due=None),
        job("steer", rank="safety", vehicle="moth", due=30),
    )
    ends = {"brakes": 4, "oil": 6, "wash": 8, "wire": 10}
    placed = tuple(Placed(name, end - 2, end, ("ines",)) for name, end in ends.items())
    plan = Plan(placed, (Unplaced("steer", "No."),))
    assert score(problem(*jobs), plan)[4] == 2 * 6 + 1 * 40
