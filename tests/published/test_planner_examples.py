"""Published scheduling examples, each with its source."""

from itertools import pairwise

import pytest

from builds.planner.check import faults
from builds.planner.problem import Link, Problem, Station
from builds.planner.search import plan
from tests.builds.planner.data import instances, plain_job, psplib, resource_problem
from tests.builds.planner.makers import HERON, job, person, problem, spans

# The 14-activity building project: Hillier & Lieberman, Introduction to Operations Research, the
# chapter on PERT/CPM; mean durations in weeks, predecessors, and the published ES, EF and TF.
BUILDING = {
    "A": (2, "", 0, 2, 0),
    "B": (4, "A", 2, 6, 0),
    "C": (10, "B", 6, 16, 0),
    "D": (6, "C", 16, 22, 4),
    "E": (4, "C", 16, 20, 0),
    "F": (5, "E", 20, 25, 0),
    "G": (7, "D", 22, 29, 4),
    "H": (9, "EG", 29, 38, 4),
    "I": (7, "C", 16, 23, 2),
    "J": (8, "FI", 25, 33, 0),
    "K": (4, "J", 33, 37, 1),
    "L": (5, "J", 33, 38, 0),
    "M": (2, "H", 38, 40, 4),
    "N": (6, "KL", 38, 44, 0),
}


def building() -> Problem:
    return Problem(
        slots=60,
        vehicles=(HERON,),
        jobs=tuple(job(k, row[0], hands=0, due=44) for k, row in BUILDING.items()),
        links=tuple(Link(first, k) for k, row in BUILDING.items() for first in row[1]),
    )


def test_the_building_project_takes_44_weeks_and_starts_each_activity_when_published():
    answer = plan(building())
    assert spans(answer) == {name: row[2:4] for name, row in BUILDING.items()}
    assert max(end for _, end in spans(answer).values()) == 44


# Kolisch & Sprecher, EJOR 96 (1997) 205-216; optima from the PSPLIB site by way of a mirror.
@pytest.mark.parametrize("path,optimum", instances("j30")[:10], ids=lambda value: str(value)[-10:])
def test_ten_j30_instances_are_at_or_above_their_optimum_and_never_below(path, optimum):
    made = psplib(path)
    first, searched = plan(made), plan(made, tries=400)
    assert optimum <= searched.score[0] <= first.score[0]
    assert searched.score[0] <= optimum * 1.05
    assert not faults(made, searched)


# Fisher & Thompson (1963), Industrial Scheduling, the 6 x 6 job shop; data and optimum 55 from
# memory: (machine, time) in working order, one row a job.
SHOP = (
    ((2, 1), (0, 3), (1, 6), (3, 7), (5, 3), (4, 6)),
    ((1, 8), (2, 5), (4, 10), (5, 10), (0, 10), (3, 4)),
    ((2, 5), (3, 4), (5, 8), (0, 9), (1, 1), (4, 7)),
    ((1, 5), (0, 5), (2, 5), (3, 3), (4, 8), (5, 9)),
    ((2, 9), (1, 3), (4, 5), (5, 4), (0, 3), (3, 1)),
    ((1, 3), (3, 3), (5, 9), (0, 10), (4, 4), (2, 1)),
)


def shop() -> Problem:
    rows, links = [], []
    for number, row in enumerate(SHOP):
        for step, (machine, time) in enumerate(row):
            rows.append(plain_job(f"{number}.{step}", time, {f"M{machine}": 1}))
            if step:
                before = {"before": f"{number}.{step - 1}", "after": f"{number}.{step}", "wait": 0}
                links.append(before)
    stations = [{"id": f"M{machine}", "capacity": 1} for machine in range(6)]
    return resource_problem(rows, links, stations)


def test_the_job_shop_is_never_below_its_optimum_and_the_search_reaches_it():
    longest_row = max(sum(time for _, time in row) for row in SHOP)
    busiest = max(sum(t for row in SHOP for m, t in row if m == k) for k in range(6))
    assert max(longest_row, busiest) <= 55
    assert plan(shop()).score[0] >= 55
    assert plan(shop(), tries=3000).score == (55,)


# Kolisch & Hartmann (1999), six jobs and one resource of four units; data from memory, optimum 13
# as in the paper.
def test_the_six_job_example_takes_13():
    times, units = (3, 4, 2, 2, 1, 4), (2, 3, 4, 4, 3, 2)
    rows = [plain_job(str(k + 1), times[k], {"R": units[k]}) for k in range(6)]
    chains = ((1, 3), (3, 5), (2, 4), (4, 6))
    links = [{"before": str(a), "after": str(b), "wait": 0} for a, b in chains]
    made = resource_problem(rows, links, [{"id": "R", "capacity": 4}])
    assert plan(made, tries=300).score == (13,)


# The garage example, invented; the hours computed twice by independent methods.
HOUR = 4
DAY = 24 * HOUR
CHAIN = (
    ("weld", 3.0, 0.0),
    ("prime", 0.5, 16.0),
    ("topcoat", 0.5, 12.0),
    ("refit", 3.0, 0.0),
    ("bleed", 2.0, 0.0),
    ("weigh", 1.5, 0.0),
    ("align", 2.0, 0.0),
    ("checklist", 0.5, 0.0),
)


def garage(windows) -> Problem:
    chain = [job(name, round(hours * HOUR), rank="safety", uses={"bay": 1}) for name, hours, _ in CHAIN]
    links = [Link(first[0], then[0], round(first[2] * HOUR)) for first, then in pairwise(CHAIN)]
    links += [Link("labels", "checklist"), Link("wiring", "checklist")]
    return problem(
        *chain,
        job("labels", 1, rank="wanted"),
        job("wiring", 3 * HOUR, rank="wanted"),
        slots=5 * DAY,
        people=(person("ines", windows=windows),),
        stations=(Station("bay"),),
        links=tuple(links),
    )


def test_the_garage_example_takes_41_hours_when_somebody_is_always_in():
    answer = plan(garage(None), tries=200)
    assert spans(answer)["checklist"][1] == 41 * HOUR


def test_the_garage_example_ends_on_friday_at_seven_with_evenings_of_four_hours():
    evenings = tuple((day * DAY + 18 * HOUR, day * DAY + 22 * HOUR) for day in range(5))
    answer = plan(garage(evenings))
    ends = {name: (end // DAY, end % DAY / HOUR) for name, (_, end) in spans(answer).items()}
    assert ends["prime"] == (0, 21.5)
    assert ends["topcoat"] == (1, 18.5)
    assert ends["refit"] == (2, 21)
    assert ends["bleed"] == (3, 19)
    assert ends["weigh"] == (3, 20.5)
    assert ends["align"] == (4, 18.5)
    assert ends["checklist"] == (4, 19)
    assert max(ends["wiring"], ends["labels"]) <= (1, 21.75)
