"""Limits: at least, at most, between, give or take; which readings must have one, what is offered."""

import pytest

from builds.readings.engine import READINGS
from builds.readings.engine.fields import FIGURE, fields_of
from builds.readings.engine.judge import Goal, judge
from builds.readings.engine.limits import (
    HOW_IT_WAS_READ,
    MAKER,
    MUST_HAVE_LIMITS,
    OFFERS,
    PRACTICE,
    goal,
    without_limit,
)
from builds.readings.engine.required import SENSIBLE

TORQUE = fields_of("wheel_torque")[0]


@pytest.mark.parametrize(
    ("sort", "amount", "second", "low", "high"),
    [
        ("off", 110_000, 5_000, 105_000, 115_000),
        ("between", 105_000, 115_000, 105_000, 115_000),
        ("least", 105_000, None, 105_000, None),
        ("most", 115_000, None, None, 115_000),
    ],
)
def test_the_ends_are_in_and_one_beyond_is_out(sort, amount, second, low, high):
    limit = goal(sort, amount, second)
    assert limit == Goal(low, high)
    for end, beyond in ((low, -1), (high, 1)):
        if end is None:
            assert judge(TORQUE, 110_000 + beyond * 100_000, limit) == "in"
        else:
            assert judge(TORQUE, end, limit) == "in"
            assert judge(TORQUE, end + beyond, limit) == "out"


@pytest.mark.parametrize("sort", ["off", "between"])
def test_a_limit_of_two_figures_wants_both(sort):
    with pytest.raises(ValueError, match="wants a second figure"):
        goal(sort, 1, None)


def test_every_figure_that_must_have_a_limit_is_offered_one_within_its_bounds():
    offered = {(offer.kind, slug) for offer in OFFERS for slug in offer.fields}
    must = {
        (kind, field.slug)
        for kind in MUST_HAVE_LIMITS
        for field in fields_of(kind)
        if field.type == FIGURE and (kind, field.slug) not in HOW_IT_WAS_READ
    }
    assert offered == must
    for offer in OFFERS:
        fields = {field.slug: field for field in fields_of(offer.kind)}
        ends = [] if offer.amount is None else [goal(offer.sort, offer.amount, offer.second)]
        for end in ends:
            for amount in (end.least, end.most):
                assert amount is None or all(fields[slug].least <= amount <= fields[slug].most for slug in offer.fields)


def test_no_figure_of_a_maker_is_invented():
    assert all((offer.mark == MAKER) <= (offer.amount is None) for offer in OFFERS)
    assert all(offer.mark == PRACTICE for offer in OFFERS if offer.amount is not None)


def test_what_tells_only_the_setup_goes_without_a_limit():
    assert set(READINGS) >= MUST_HAVE_LIMITS
    for kind in ("corner_weights", "cg_height", "track_width", "earths"):
        assert without_limit(kind, fields_of(kind), ()) == ()
    usual = {
        kind for kind in SENSIBLE if without_limit(kind, fields_of(kind), ()) and fields_of(kind)[0].type == FIGURE
    }
    assert usual == {
        *("bearing_play", "tyre_pressures", "ride_height", "camber", "caster", "toe_rear", "toe_front"),
        *("wheel_torque", "lock_clearance", "belt_geometry"),
    }


def test_one_figure_without_a_limit_is_enough_to_want_one():
    fields = fields_of("toe_front")
    assert [field.slug for field in without_limit("toe_front", fields, {"fl"})] == ["fr"]
    assert without_limit("toe_front", fields, {"fl", "fr"}) == ()
    assert "travel" not in {field.slug for field in without_limit("bump_steer", fields_of("bump_steer"), ())}
