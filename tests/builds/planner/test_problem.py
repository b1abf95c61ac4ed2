"""What is refused, each with the sentence that says what to put right."""

import json

import pytest

from builds.planner.files import problem_from, read_problem
from builds.planner.problem import Hold, Link, Person, Problem, ProblemError, Promise, Station
from tests.builds.planner.data import FLEETS
from tests.builds.planner.makers import job, person, problem

WELD, PRIME = job("weld", title="Weld the arm"), job("prime", title="Prime it")

REFUSED = {
    "Link weld -> paint leads to job paint, which is unknown.": lambda: problem(WELD, links=(Link("weld", "paint"),)),
    "Job Weld the arm is linked to itself.": lambda: problem(WELD, links=(Link("weld", "weld"),)),
    "These jobs wait for each other in a circle: coat -> Weld the arm -> Prime it -> coat.": (
        lambda: problem(
            WELD,
            PRIME,
            job("coat"),
            links=(Link("prime", "coat"), Link("weld", "prime"), Link("coat", "weld")),
        )
    ),
    "Two job entries have the id weld.": lambda: problem(WELD, WELD),
    "Two person entries have the id ines.": lambda: problem(people=(person("ines"), person("ines"))),
    "Two station entries have the id bay.": lambda: problem(stations=(Station("bay"), Station("bay"))),
    "Job weld is on vehicle tug, which is unknown.": lambda: problem(job("weld", vehicle="tug")),
    "Job weld uses station pit, which is unknown.": lambda: problem(job("weld", uses={"pit": 1})),
    "Job weld has tove in its crew, who is unknown.": lambda: problem(job("weld", crew=("tove",))),
    "Job weld wants 1 people at once, and its crew has 0.": lambda: problem(job("weld", crew=())),
    "Job weld: its work must lie between 0 and 100000.": lambda: job("weld", work=-1),
    "Job weld: its work must be a whole number.": lambda: job("weld", work=True),
    "Job weld: its hands must lie between 0 and 1000.": lambda: job("weld", hands=10**30),
    "Job weld: its weight must be a number.": lambda: job("weld", weight="2"),
    "Job weld: its weight must lie between 0 and 100000.": lambda: job("weld", weight=float("nan")),
    "Job weld: its range must be three numbers: low, likely and high.": lambda: job("weld", range=(1, 2)),
    "Job weld: its range must run from low over likely to high.": lambda: job("weld", range=(1, 3, 2)),
    "Job weld: its range must lie between 0 and 100000.": lambda: job("weld", range=(-0.5, 1, 2)),
    "Job weld: its range must be a number.": lambda: job("weld", range=(1, "2", 3)),
    "Job weld: its rank must be one of safety, needed, wanted.": lambda: job("weld", rank="soon"),
    "Job weld: whether it may be split must be true or false.": lambda: job("weld", splits=1),
    "Job weld: its skill must be a text that is not empty.": lambda: job("weld", skill=" "),
    "Person ines: the hours: two windows overlap at slot 4.": lambda: Person("ines", (), ((0, 5), (4, 9))),
    "Person ines: the hours: the window from 5 to 5 does not run forwards.": lambda: Person("ines", (), ((5, 5),)),
    "Station bay: whether a car stands in it must be true or false.": lambda: Station("bay", stands=1),
    "The hold of station bay: its units must lie between 0 and 1000.": lambda: Hold("heron", "bay", "a", "b", -1),
    "Station bay: the hours must hold pairs of slots, from and to.": lambda: Station("bay", 1, ((1, 2, 3),)),
    "Person ines: the skills must not name anything twice.": lambda: Person("ines", ("fit", "fit")),
    "Link weld -> prime: its wait must lie between 0 and 100000.": lambda: Link("weld", "prime", -1),
    "Link weld -> prime: its ready times must not fall.": lambda: Link("weld", "prime", 0, (5, 4, 6)),
    "Link weld -> prime: a ready time must not come before the end plus the wait.": lambda: Link(
        "weld", "prime", 2, (2, 3, 3)
    ),
    "Link weld -> prime needs 41 ready times, one a slot and one past the last, and has 2.": (
        lambda: problem(WELD, PRIME, links=(Link("weld", "prime", 0, (1, 2)),))
    ),
    "A hold of station bay names job paint, which is unknown.": lambda: problem(
        WELD, holds=(Hold("heron", "bay", "weld", "paint"),)
    ),
    "A hold of station bay names job Weld the arm, which is not a job of moth.": lambda: problem(
        WELD, holds=(Hold("moth", "bay", "weld", "weld"),)
    ),
    "A hold is of station pit, which is unknown.": lambda: problem(WELD, holds=(Hold("heron", "pit", "weld", "weld"),)),
    "A hold is for vehicle tug, which is unknown.": lambda: problem(WELD, holds=(Hold("tug", "bay", "weld", "weld"),)),
    "The plan before has job weld twice.": lambda: problem(WELD, before=(Promise("weld", 1), Promise("weld", 2))),
    "The plan before, job weld the arm, must be a table.": lambda: problem_from(
        {"slots": 4, "jobs": [], "before": {"weld\nthe arm": None}}
    ),
    "The number of slots must lie between 1 and 100000.": lambda: Problem(slots=0),
    "The goal must be one of event, finish.": lambda: Problem(slots=1, goal="soon"),
    "The start must be an ISO 8601 date and time.": lambda: Problem(slots=1, start="monday"),
    "The file is not readable as JSON.": lambda: read_problem("{"),
    "The file must hold one table, the problem.": lambda: problem_from([]),
    "The problem has no slots.": lambda: problem_from({"jobs": []}),
    "The problem has no jobs.": lambda: problem_from({"slots": 4}),
    "The people of the problem must be a list.": lambda: problem_from({"slots": 4, "jobs": [], "people": {}}),
    "Entry 1 of jobs has no vehicle.": lambda: problem_from({"slots": 4, "jobs": [{"id": "weld"}]}),
    "Entry 1 of jobs must be a table.": lambda: problem_from({"slots": 4, "jobs": ["weld"]}),
}


@pytest.mark.parametrize("sentence", REFUSED)
def test_nonsense_is_refused_in_one_sentence(sentence):
    with pytest.raises(ProblemError) as refusal:
        REFUSED[sentence]()
    assert str(refusal.value) == sentence


def test_a_name_of_ten_thousand_characters_does_not_fill_the_sentence():
    with pytest.raises(ProblemError) as refusal:
        job("weld", title="x" * 10_000, work=-1)
    assert len(str(refusal.value)) < 150


def test_windows_are_sorted_and_joined_where_they_touch():
    assert person("ines", windows=[[8, 9], [0, 4], [4, 6]]).windows == ((0, 6), (8, 9))


def test_a_promise_of_a_job_that_is_gone_is_passed_over():
    assert problem(WELD, before=(Promise("gone", 3),)).before


def test_keys_beyond_the_contract_may_be_absent():
    table = json.loads(FLEETS[0].read_text())
    assert "title" not in table["jobs"][0]
    assert problem_from(table).jobs[0].label == table["jobs"][0]["id"]
