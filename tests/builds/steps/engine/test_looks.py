"""Who may say that he looked, and which work a hold point looks at: the rule by itself."""

from datetime import UTC, datetime, timedelta

import pytest

from builds.readings.engine.kinds_of_work import KINDS
from builds.steps.engine.looks import (
    JOINTS,
    NOBODY,
    Eyes,
    RecipeWork,
    covering,
    gives_up,
    refuse_look,
    waits_for,
    wants_look,
)

INES = Eyes(1, "Ines", here=True, may_sign=True, owner=True)
TOVE = Eyes(2, "Tove", here=True, may_sign=True, owner=False)
OTTO = Eyes(3, "Otto", here=True, may_sign=False, owner=False)
PRIYA = Eyes(4, "Priya", here=False, may_sign=True, owner=False)
THEN = datetime(2027, 3, 2, 17, tzinfo=UTC)
ALL = {1, 2, 3}


def said(who, by=None, workers=(), everybody=ALL, *, safety=True, outsider=""):
    return refuse_look(who, by or who, workers, everybody, safety=safety, outsider=outsider)


@pytest.mark.parametrize(
    ("who", "by", "workers", "everybody", "sentence"),
    [
        (PRIYA, PRIYA, {2}, ALL, "Priya cannot sign here: choose an owner or a helper of this garage."),
        (INES, PRIYA, {2}, ALL, "Priya cannot sign here: choose an owner or a helper of this garage."),
        (OTTO, OTTO, {2}, ALL, "Otto may not sign: the owner says who may, on the page of each person."),
        (INES, OTTO, {2}, ALL, "Otto may not sign: the owner says who may, on the page of each person."),
        (TOVE, TOVE, {2}, ALL, "Tove worked on this: somebody else has to look at it and sign."),
        (INES, INES, {1}, ALL, "Ines worked on this: somebody else has to look at it and sign."),
        (INES, INES, {1, 2}, ALL, "Ines worked on this: somebody else has to look at it and sign."),
        (TOVE, TOVE, {1, 2}, {1, 2}, "Everybody here worked on this: the owner looks at it and signs."),
        (INES, TOVE, {2}, ALL, "Tove worked on this and cannot write down another's look: Ines signs it."),
        (INES, INES, {2}, ALL, None),
        (TOVE, INES, {3}, ALL, None),
        (INES, INES, {1, 2}, {1, 2}, None),
        (INES, INES, {1}, {1}, None),
        (INES, INES, {1, 9}, {1}, None),
    ],
)
def test_who_may_say_that_he_looked(who, by, workers, everybody, sentence):
    assert said(who, by, workers, everybody) == sentence


def test_a_hand_may_write_down_anothers_look_where_nobody_is_hurt():
    assert said(INES, TOVE, {2}, safety=False) is None
    assert said(TOVE, TOVE, {2}, safety=False) is not None


def test_only_the_owner_writes_down_who_looked_from_outside_though_he_did_the_work():
    assert said(INES, workers={1}, outsider="Pella") is None
    assert said(TOVE, outsider="Pella") == "Only the owner writes down that somebody from outside looked."
    unticked = Eyes(1, "Ines", here=True, may_sign=False, owner=True)
    assert said(unticked, outsider="Pella") is not None


def test_who_has_no_hand_in_it_is_told_what_he_gives_up_by_finishing_it():
    three = [INES, TOVE, Eyes(5, "Kev", here=True, may_sign=True, owner=False)]
    assert gives_up(INES, three, {2}, {2}) == (
        "Tove worked on it, and whoever finishes it counts as a hand and cannot look at it afterwards. "
        "If Tove finishes it, you can look at it and sign; if you do, it waits for Kev."
    )
    assert gives_up(INES, [INES, TOVE], {2}, {2}).endswith("; if you do, nobody else is left to look at it.")
    assert gives_up(TOVE, [INES, TOVE, OTTO], {3}, {3}).endswith("; if you do, it waits for Ines.")


@pytest.mark.parametrize(
    ("by", "workers", "did"),
    [(INES, {1, 2}, {1, 2}), (INES, set(), set()), (OTTO, {2}, {2}), (INES, {1, 2}, {2})],
    ids=["his own work", "nobody's work", "may not sign", "he worked on what is looked at with it"],
)
def test_who_could_not_look_anyway_gives_up_nothing(by, workers, did):
    assert gives_up(by, [INES, TOVE, OTTO], workers, did) == ""


def test_an_owner_on_whose_own_work_nobody_else_is_left_to_look_gives_up_nothing():
    assert gives_up(INES, [INES], {1}, {1}) == gives_up(INES, [INES, TOVE], {1, 2}, {2}) == ""


def test_it_waits_for_those_who_may_look():
    assert waits_for([INES, TOVE, OTTO], set()) == "Ines or Tove"
    assert waits_for([INES, TOVE, OTTO], {2}) == "Ines"
    assert waits_for([INES, OTTO], {1}) == NOBODY
    assert waits_for([INES, TOVE], {1, 2}) == "Ines"
    assert waits_for([], set()) == NOBODY


@pytest.mark.parametrize(
    ("safety", "of_recipe", "kinds", "covered", "wants"),
    [
        (False, False, ["joint_opened"], False, False),
        (True, False, [], False, True),
        (True, False, ["joint_opened"], True, True),
        (True, True, ["joint_opened"], False, True),
        (True, True, ["joint_opened"], True, False),
        (True, True, ["wheel_off"], False, False),
    ],
)
def test_what_waits_to_be_looked_at(safety, of_recipe, kinds, covered, wants):
    assert wants_look(safety=safety, of_recipe=of_recipe, kinds=kinds, covered=covered) is wants


def work(number, *systems, ended=None, points=()):
    return RecipeWork(number, frozenset(systems), ended, points)


CHAIN = [(1, 2), (2, 3)]


def test_a_point_further_on_looks_at_what_it_is_about_and_at_nothing_else():
    jobs = [work(1, "brakes"), work(2, "body"), work(3, "brakes", points=(None,))]
    assert covering(jobs, CHAIN) == {1: {3}, 2: frozenset(), 3: {3}}
    assert covering([work(1), *jobs[1:]], CHAIN)[1] == frozenset()


def test_its_own_point_is_nearer_and_the_next_one_is_nearer_than_the_one_after():
    own = [work(1, "brakes", points=(None,)), work(2, "brakes"), work(3, "brakes", points=(None,))]
    assert covering(own, CHAIN)[1] == {1}
    two = [work(1, "brakes"), work(2, "brakes", points=(None,)), work(3, "brakes", points=(None,))]
    assert covering(two, CHAIN)[1] == {2}


def test_a_point_without_a_system_looks_at_its_own_job():
    assert covering([work(1, points=(None,))], [])[1] == {1}


@pytest.mark.parametrize(("minutes", "counts"), [(-1, False), (0, True), (1, True)])
@pytest.mark.parametrize("which", [1, 2])
def test_a_look_before_the_end_of_the_work_is_no_look_at_it(which, minutes, counts):
    ended = {1: THEN if which == 1 else THEN - timedelta(days=1), 2: THEN if which == 2 else None}
    jobs = [
        work(1, "brakes", ended=ended[1]),
        work(2, "brakes", ended=ended[2], points=(THEN + timedelta(minutes=minutes),)),
    ]
    assert bool(covering(jobs, [(1, 2)])[1]) is counts


def test_of_two_points_one_that_still_counts_is_enough():
    jobs = [work(1, "brakes", ended=THEN, points=(THEN - timedelta(hours=1), None))]
    assert covering(jobs, [])[1] == {1}


def test_jobs_in_a_circle_and_links_to_other_jobs_end():
    jobs = [work(1, "brakes"), work(2, "brakes")]
    assert covering(jobs, [(1, 2), (2, 1), (2, 9)]) == {1: frozenset(), 2: frozenset()}


def test_the_kinds_that_leave_a_joint_are_kinds_of_work():
    assert set(KINDS) >= JOINTS
