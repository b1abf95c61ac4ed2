"""Which finished work leaves alone all that work on its systems spoils; common practice, no source."""

import pytest

from builds.readings.engine.kinds_of_work import KINDS
from builds.steps.engine.opened import (
    HAPPENED,
    asks_what_was_opened,
    offered_first,
    opens_nothing_of,
    other_kinds,
    refuse_kinds,
)
from garage.engine.systems import SAFETY_SYSTEMS


@pytest.mark.parametrize("systems", [[], ["cooling"], *([system] for system in sorted(SAFETY_SYSTEMS))])
def test_none_at_all_opens_nothing(systems):
    assert opens_nothing_of(systems, [])


@pytest.mark.parametrize(("systems", "kinds", "nothing"), [
    (["steering"], ["paint"], True),
    (["steering"], ["paint", "jam_nut"], False),
    (["steering"], ["steering_arm"], False),
    (["wheels"], ["wheel_off"], False),
    (["wheels"], ["tyre_or_pressure"], False),
    (["wheels"], ["coolant"], True),
    (["brakes"], ["joint_opened"], False),
    (["brakes"], ["driven"], True),
    (["suspension"], ["engine_work"], True),
    (["fuel"], ["fuel_drained"], False),
    (["restraint", "seat"], ["seat_work"], False),
    (["wheels", "steering"], ["wheel_off"], False),
    (["cage"], ["paint"], False),  # nothing is known of what work on a cage spoils
    (["cooling"], ["coolant"], False),
    ([], ["wheel_off"], False),
])  # fmt: skip
def test_what_the_kinds_said_have_to_do_with_the_systems_said(systems, kinds, nothing):
    assert opens_nothing_of(systems, kinds) is nothing


def test_a_crash_opened_all_of_it():
    assert not any(opens_nothing_of([system], ["crash"]) for system in SAFETY_SYSTEMS)
    assert "crash" in KINDS


@pytest.mark.parametrize(("safety", "told", "systems", "kinds", "likely", "asks"), [
    (True, False, ["steering"], [], False, True),
    (True, False, ["steering"], ["jam_nut"], False, False),
    (True, False, ["steering"], ["jam_nut"], True, True),
    (True, True, ["steering"], [], False, False),
    (False, False, ["cooling"], [], False, False),
    (False, False, ["cooling"], [], True, True),
    (False, False, [], [], False, True),
    (False, False, [], ["coolant"], False, False),
    (False, True, [], [], False, False),
])  # fmt: skip
def test_when_its_finish_asks(safety, told, systems, kinds, likely, asks):
    said = {"told": told, "systems": systems, "kinds": kinds, "likely": likely}
    assert asks_what_was_opened(safety=safety, **said) is asks


def test_what_is_offered_first_follows_the_systems_as_they_are_said():
    one, other = offered_first(["brakes", "suspension"], []), offered_first(["suspension", "brakes"], [])
    assert one != other and {*one} == {*other}


def test_the_likely_come_first_and_what_happened_is_offered_only_where_it_was_said():
    first = offered_first(["brakes"], ["crash"])
    assert first == ("crash", "hydraulics_opened", "friction_parts", "brake_vacuum")
    assert offered_first([], []) == () and "crash" in HAPPENED
    others = other_kinds(first)
    assert {*first, *(kind for theirs in others.values() for kind in theirs)} == {*KINDS} - HAPPENED | {"crash"}
    assert {*KINDS} == {kind for theirs in other_kinds((), happened=True).values() for kind in theirs}


def test_the_others_stand_once_each_under_the_first_system_that_they_open():
    others = other_kinds(offered_first(["brakes"], []))
    assert next(iter(others)) == "steering" and list(others)[-1] == "" and "brakes" not in others
    assert "joint_opened" in others["steering"] and "joint_opened" not in others["suspension"]
    assert "engine_work" in others[""]


@pytest.mark.parametrize(("kinds", "one"), [
    ([], True), (["driven"], True), (["driven", "engine_run"], True),
    (["driven", "wheel_off"], False), (["wheel_off"], True),
])  # fmt: skip
def test_nobody_drives_what_he_works_on(kinds, one):
    assert (refuse_kinds(kinds) is None) is one
