"""What waits for work that somebody else looks at waits for somebody who had no hand on it."""

from dataclasses import replace
from itertools import pairwise

import pytest

from builds.odds.course import Course
from builds.planner.check import faults
from builds.planner.crews import Roster
from builds.planner.explain import reasons
from builds.planner.looks import Looks
from builds.planner.plan import Placed, Plan
from builds.planner.problem import Link, Person, ProblemError
from builds.planner.search import plan
from tests.builds.planner.makers import job, person, problem

MONDAY, TUESDAY = (0, 10), (20, 40)
OWNER = Person("owner", ("fit",), (MONDAY, TUESDAY), "Owner")
KEV = Person("kev", (), ((24, 40),), "Kev")
BOTH = ("owner", "kev")


def made(*people, eyes=BOTH, **more):
    refit = job("refit", title="Refit hub", work=4, eyes=eyes, splits=False, **more)
    return problem(refit, job("pads", title="Rear pads"), people=people, links=(Link("refit", "pads"),))


def starts(one):
    answer = plan(one)
    assert faults(one, answer) == []
    return {placed.id: placed.start for placed in answer.placed}


def test_the_next_job_waits_until_whoever_may_look_is_in():
    one = made(OWNER, KEV, skill="fit")
    assert starts(one) == {"refit": 0, "pads": 24}
    said = reasons(one, plan(one))["pads"]
    assert said.sentence == ("“Rear pads” waits for “Refit hub”, done slot 4, then for Kev, who looks at it slot 24.")
    assert (said.kind, said.job) == ("link", "refit")


@pytest.mark.parametrize(
    ("people", "more", "opens"),
    [
        ((OWNER, KEV), {"eyes": ()}, 4),  # nothing to look at, or nobody of whom hours are known
        ((OWNER, KEV), {"eyes": ("owner",), "skill": "fit"}, 4),  # nobody but its own hands: the owner signs
        ((OWNER, replace(KEV, windows=((3, 5),))), {"skill": "fit"}, 4),  # in as it ends
        ((OWNER, replace(KEV, windows=((0, 3), (30, 40)))), {"skill": "fit"}, 30),  # gone before it ends
    ],
)
def test_who_is_waited_for(people, more, opens):
    assert starts(made(*people, **more))["pads"] == opens


def test_work_of_machines_alone_waits_for_a_look_too():
    runs = (job("refit", hands=0, eyes=("kev",)), job("pads", hands=0))
    assert starts(problem(*runs, people=(OWNER, KEV), links=(Link("refit", "pads"),)))["pads"] == 24


def test_who_does_what_takes_no_time_need_not_be_in_as_it_ends():
    look = (job("refit", work=0, eyes=BOTH, skill="fit", earliest=6), job("pads"))
    people = (replace(OWNER, windows=(TUESDAY,)), replace(KEV, windows=((0, 4), (30, 40))))
    assert starts(problem(*look, people=people, links=(Link("refit", "pads"),)))["pads"] == 30


def test_a_table_holds_whoever_does_it_and_never_falls():
    one = made(OWNER, KEV)
    table = Looks(Roster(one), one.slots).table(one.jobs[0])
    assert len(table) == one.slots + 1
    assert table[4] == 24 and table[22] == 24 and table[30] == 30
    assert all(early <= late for early, late in pairwise(table))
    assert Looks(Roster(one), one.slots).opens(Link("refit", "pads", 30), one.jobs[0])[4] == 34


def test_a_plan_in_which_nobody_could_have_looked_is_faulty():
    one = made(OWNER, KEV)
    answer = Plan((Placed("refit", 0, 4, ("owner",)), Placed("pads", 4, 6, ("owner",))))
    assert faults(one, answer) == ["“Rear pads” starts before anybody could look at “Refit hub”."]
    answer = Plan((Placed("refit", 20, 24, ("owner",)), Placed("pads", 24, 26, ("owner",))))
    assert faults(one, answer) == []


def test_a_run_of_the_odds_waits_for_the_look_too():
    one = made(OWNER, KEV, skill="fit")
    ends, causes = Course(one).run([4, 2])
    assert ends == [4, 26] and causes[1] == 0


def test_who_looks_must_be_known():
    with pytest.raises(ProblemError, match="is looked at by tove, who is unknown"):
        made(person("ines"), eyes=("tove",))
