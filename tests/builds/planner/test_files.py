"""What is written is read back the same, and plan_file speaks JSON or one sentence."""

import io
import json
import sys

import pytest
from django.core.management import CommandError, call_command

from builds.planner.files import problem_from, read_plan, read_problem, write_plan
from builds.planner.search import plan
from tests.builds.planner.data import FLEETS, ODDS, fleet


def test_a_plan_is_read_back_as_it_was_written():
    answer = plan(fleet(FLEETS[2]))
    assert read_plan(write_plan(answer)) == answer


def test_every_key_beyond_the_contract_is_read():
    made = problem_from(
        {
            "slots": 4,
            "keep": 3,
            "before": {"a": {"start": 1, "people": ["p"]}},
            "people": [{"id": "p", "skills": [], "windows": None, "name": "Priya"}],
            "jobs": [
                {"id": name, "vehicle": "v", "rank": "needed", "work": 1, "hands": 1}
                | {"title": "A", "crew": ["p"], "pinned": 1, "started": True}
                | {"range": [0, 0.5, 100_000]}
                for name in ("a", "b")
            ],
            "stations": [{"id": "bay", "capacity": 2, "stands": True}, {"id": "welder"}],
            "holds": [{"vehicle": "v", "station": "bay", "from": "a", "until": "b", "units": 2}],
            "links": [{"before": "a", "after": "b", "ready": [1, 2, 3, 4, 5], "why": "cure"}],
        }
    )
    assert (made.keep, made.before[0].people, made.people[0].name) == (3, ("p",), "Priya")
    assert [station.stands for station in made.stations] == [True, False]
    assert made.holds[0].units == 2
    first = made.jobs[0]
    assert (first.title, first.crew, first.pinned, first.started) == ("A", ("p",), 1, True)
    assert first.range == (0, 0.5, 100_000)
    assert (made.links[0].ready, made.links[0].why) == ((1, 2, 3, 4, 5), "cure")


def run(*words):
    out = io.StringIO()
    call_command("plan_file", *words, stdout=out)
    return json.loads(out.getvalue())


def test_plan_file_prints_the_plan():
    printed = run(str(FLEETS[1]), "--seconds", "0")
    first = plan(fleet(FLEETS[1]))
    assert tuple(printed["score"]) == first.score
    assert len(printed["placed"]) == 28


def test_plan_file_reads_standard_input(monkeypatch):
    words = FLEETS[0].read_bytes()
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(words)))
    assert len(run("-", "--seconds", "0")["placed"]) == len(read_problem(words).jobs)


def test_plan_file_plans_the_rest_when_jobs_have_no_place(tmp_path):
    table = json.loads(FLEETS[0].read_text())
    last = table["jobs"][-1]["id"]
    lost = {"hands": 9}, {"skill": "fly"}, {"work": 200, "splits": False}
    table["jobs"] += [{**table["jobs"][0], "id": f"lost-{k}", **keys} for k, keys in enumerate(lost)]
    table["jobs"].append({**table["jobs"][0], "id": "after"})
    table["links"].append({"before": "lost-0", "after": "after"})
    (tmp_path / "problem.json").write_text(json.dumps(table))
    printed = run(str(tmp_path / "problem.json"), "--seconds", "0.1")
    assert last in {row["id"] for row in printed["placed"]}
    reasons = {row["id"]: row["why"] for row in printed["unplaced"]}
    assert reasons["lost-0"] == "It wants 9 people at once, and there is only 1."
    assert reasons["lost-1"] == "Nobody can fly: teach or lend somebody the skill."
    assert reasons["lost-2"].startswith("It needs 50 h on end, and the longest session for it is ")
    assert reasons["after"] == "It waits for lost-0, which has no place in the plan."
    assert len(printed["placed"]) == len(table["jobs"]) - 4


@pytest.mark.parametrize("words", ["{", "[]", '{"slots": 0, "jobs": []}'])
def test_plan_file_refuses_a_bad_file_in_one_sentence(tmp_path, words):
    (tmp_path / "bad.json").write_text(words)
    with pytest.raises(CommandError) as refusal:
        run(str(tmp_path / "bad.json"))
    assert str(refusal.value).count(".") == 1


def test_plan_file_says_when_there_is_no_file(tmp_path):
    with pytest.raises(CommandError, match=r"cannot be read: No such file"):
        run(str(tmp_path / "none.json"))


def test_plan_file_tells_the_odds_of_each_car_with_something_due():
    printed = run(str(ODDS[0]), "--seconds", "0", "--odds", "20", "--seed", "3")
    assert set(printed["odds"]) == {"v0", "v1"}
    for odds in printed["odds"].values():
        assert set(odds) == {"share", "runs", "eight_in_ten"}
        assert odds["runs"] == 20 and 0 <= odds["share"] <= 1
    assert printed == {
        **run(str(ODDS[0]), "--seconds", "0", "--odds", "20", "--seed", "3"),
        "seconds": printed["seconds"],
    }
    assert "odds" not in run(str(ODDS[0]), "--seconds", "0")


def test_fewer_than_8_of_10_runs_that_end_at_all_have_no_slot(tmp_path):
    job = {"id": "a", "vehicle": "v", "rank": "needed", "work": 2, "hands": 1, "due": 4, "range": [1, 2, 30]}
    table = {"slots": 6, "jobs": [job], "people": [{"id": "p", "skills": []}], "vehicles": [{"id": "v"}]}
    (tmp_path / "problem.json").write_text(json.dumps(table))
    odds = run(str(tmp_path / "problem.json"), "--seconds", "0", "--odds", "100")["odds"]["v"]
    assert 0 < odds["share"] < 0.8
    assert odds["eight_in_ten"] is None


@pytest.mark.parametrize("count", ["0", "100001", "some"])
def test_plan_file_refuses_no_runs_and_too_many(count):
    with pytest.raises(CommandError, match="--odds"):
        run(str(ODDS[0]), "--odds", count)


def test_plan_file_takes_the_most_runs_that_it_says(tmp_path):
    (tmp_path / "none.json").write_text('{"slots": 1, "jobs": []}')
    assert run(str(tmp_path / "none.json"), "--seconds", "0", "--odds", "100000")["odds"] == {}
