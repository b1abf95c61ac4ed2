"""Each permission by itself: who is let, and in which words everybody else is refused."""

import pytest

from garage import access
from garage.models import Garage, Membership, Person, Vehicle

ROLES = ("owner", "helper", "viewer")


def member(role, pk=1, name="Tove"):
    return Membership(pk=pk, role=role, garage=Garage(name="Lock-up"), person=Person(name=name))


@pytest.mark.parametrize("role", ROLES)
def test_what_each_role_is_let_do(role):
    me = member(role)
    owner, works = role == "owner", role != "viewer"
    arranging = None if owner else "Only the owner of Lock-up can change this."
    working = None if works else "You can look, but not change: ask the owner to make you a helper."
    costs = None if owner else "Only the owner of Lock-up sees what things cost."
    assert access.refuse_arranging(me) == arranging
    assert access.refuse_working(me) == working
    assert access.refuse_costs(me) == costs


@pytest.mark.parametrize("role", ROLES)
@pytest.mark.parametrize("ticked", ["every", "this", "another", "none"])
def test_whose_hands_may_be_on_a_car_and_who_may_pull_from_it(role, ticked):
    me, heron = member(role), Vehicle(pk=7, name="Heron")
    only = {"every": None, "this": frozenset({7}), "another": frozenset({8}), "none": frozenset()}[ticked]
    me.every_car = me.every_donor = only is None
    if role != "owner":
        me.only_cars = me.only_donors = only
    let = role == "owner" or ticked in ("every", "this")
    looks = "You can look, but not change: ask the owner to make you a helper."
    says_who = "the owner says who does, on the page of each person."
    off = None if let else f"Tove does not work on Heron: {says_who}"
    not_pulled = None if let else f"Tove pulls no parts from Heron: {says_who}"
    assert access.refuse_work_on(me, heron) == (looks if role == "viewer" else off)
    assert access.refuse_pull_from(me, heron) == (looks if role == "viewer" else not_pulled)
    assert access.refuse_work_on(me, None) == access.refuse_working(me)


@pytest.mark.parametrize(("role", "own", "let"), [
    ("owner", True, True), ("owner", False, True), ("helper", True, True), ("helper", False, False),
    ("viewer", True, False), ("viewer", False, False),
])  # fmt: skip
def test_hours_are_ones_own_or_the_owners_to_keep(role, own, let):
    me = member(role)
    whose = me if own else member("helper", pk=2, name="Priya")
    said = None if let else f"Only {'Tove' if own else 'Priya'} or the owner can change these hours."
    assert access.refuse_hours(me, whose) == said


def test_who_is_in_another_garage_keeps_his_own_name():
    assert access.refuse_identity(member("helper"), elsewhere=False) is None
    assert "only Tove can change this" in access.refuse_identity(member("helper"), elsewhere=True)


@pytest.mark.parametrize(("left", "let"), [(0, False), (1, True), (2, True)])
def test_a_garage_keeps_an_owner(left, let):
    assert (access.refuse_leaving_without_owner(left) is None) is let
