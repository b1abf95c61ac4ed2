"""Whatever a problem file holds, it is planned or refused, and each sentence stands on one line."""

import json
from copy import deepcopy

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builds.planner.explain import reasons
from builds.planner.files import problem_from, read_problem
from builds.planner.problem import ProblemError
from builds.planner.search import plan
from tests.builds.planner.judge import is_valid
from tests.property.tries import tries

SOUND = {
    "slots": 40,
    "slot_minutes": 15,
    "start": "2027-03-01T00:00:00+00:00",
    "goal": "event",
    "keep": 4,
    "vehicles": [{"id": "heron", "weight": 2, "name": "Heron"}, {"id": "moth"}],
    "people": [
        {"id": "ines", "skills": ["weld"], "windows": [[0, 8], [12, 30]], "name": "Ines"},
        {"id": "tove", "skills": [], "windows": None},
    ],
    "stations": [{"id": "bay", "capacity": 1, "windows": None}, {"id": "bench", "capacity": 2}],
    "jobs": [
        {
            "id": name,
            "vehicle": "heron",
            "rank": "safety",
            "weight": 1,
            "work": 3,
            "hands": 1,
            "skill": "weld",
            "uses": {"bay": 1},
            "splits": True,
            "earliest": 0,
            "due": 30,
            "windows": [[0, 20]],
            "title": "Weld the arm",
            "crew": ["ines"],
            "pinned": None,
            "started": False,
        }
        for name in ("a", "b")
    ],
    "links": [{"before": "a", "after": "b", "wait": 2, "ready": [k + 3 for k in range(41)], "why": "cure"}],
    "holds": [{"vehicle": "heron", "station": "bay", "from": "a", "until": "b"}],
    "before": {"a": {"start": 2, "people": ["ines"]}},
}

anything = st.recursive(
    st.none()
    | st.booleans()
    | st.integers()
    | st.integers(-3, 50)
    | st.floats()
    | st.text(max_size=5)
    | st.sampled_from(("a", "b", "heron", "bay", "ines")),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=5), inner),
    max_leaves=6,
)


@given(st.data())
@tries(500)
def test_any_value_in_any_place_is_read_or_refused_in_one_sentence(data):
    problem = deepcopy(SOUND)
    for _ in range(data.draw(st.integers(1, 2))):
        _spoil(problem, data.draw)
    _read_or_refuse(lambda: problem_from(problem))


@given(anything)
def test_any_value_at_all_is_read_or_refused_in_one_sentence(value):
    _read_or_refuse(lambda: problem_from(value))


@given(st.text() | st.binary() | anything.map(json.dumps))
def test_any_text_is_read_or_refused_in_one_sentence(words):
    _read_or_refuse(lambda: read_problem(words))


BROKEN_LINES = {
    "a job of the plan before": {"before": {"weld\nthe arm": None}},
    "a skill that nobody has until later": {
        "jobs": [{**SOUND["jobs"][0], "crew": None, "skill": "weld\nand cut"}],
        "people": [{"id": "ines", "skills": ["weld\nand cut"], "windows": [[12, 30]]}],
        "links": [],
        "holds": [],
    },
    "the reason of a wait": {"links": [{"before": "a", "after": "b", "wait": 2, "why": "primer\ncure"}]},
    "what a job waits for": {"jobs": [{**SOUND["jobs"][0], "earliest": 3, "waits_for": "tubes\u2028and rods"}]}
    | {"links": [], "holds": []},
}


@pytest.mark.parametrize("broken", BROKEN_LINES)
def test_a_line_break_in_a_name_breaks_no_sentence(broken):
    _read_or_refuse(lambda: problem_from({**SOUND, **BROKEN_LINES[broken]}))


def test_the_sound_problem_of_these_tests_is_read():
    assert len(problem_from(SOUND).jobs) == 2


def _read_or_refuse(read):
    try:
        problem = read()
    except ProblemError as refusal:
        _is_one_sentence(str(refusal))
        return
    if problem.slots <= 200:
        answer = plan(problem)
        assert is_valid(problem, answer)
        for words in [left.why for left in answer.unplaced]:
            _is_one_sentence(words)
        for reason in reasons(problem, answer).values():
            _is_one_sentence(reason.sentence)


def _is_one_sentence(words):
    assert words.endswith(".")
    assert words.splitlines() == [words]
    assert len(words) < 600


def _spoil(problem, draw):
    at = problem
    while True:
        key = draw(st.sampled_from(range(len(at)) if isinstance(at, list) else sorted(at)))
        if isinstance(at[key], (dict, list)) and at[key] and draw(st.booleans()):
            at = at[key]
            continue
        if isinstance(at, dict) and draw(st.integers(0, 3)) == 0:
            del at[key]
        else:
            at[key] = draw(anything)
        return
