"""Three figures: what they stand for, what is refused, what is left of them."""

import math
from random import Random

import pytest

from builds.odds.estimates import BetaPert, left_of, scaled, spread
from tests.published.critical_path import pert_variance


@pytest.mark.parametrize(
    ("figures", "alpha", "beta"),
    [((0, 30, 60), 3, 3), ((30, 30, 90), 1, 5), ((30, 90, 90), 5, 1), ((0, 15, 60), 2, 4)],
)
def test_shapes_follow_where_likely_stands(figures, alpha, beta):
    assert (BetaPert(*figures).alpha, BetaPert(*figures).beta) == (alpha, beta)


@pytest.mark.parametrize("figures", [(0, 30, 60), (30, 30, 90), (30, 90, 90), (10, 25, 200)])
def test_mean_and_variance_are_those_of_the_beta_distribution(figures):
    pert = BetaPert(*figures)
    alpha, beta = pert.alpha, pert.beta
    assert pert.mean == pytest.approx(pert.low + pert.span * alpha / (alpha + beta))
    unit = alpha * beta / ((alpha + beta) ** 2 * (alpha + beta + 1))
    assert pert.variance == pytest.approx(pert.span**2 * unit)


def test_the_rule_of_thumb_differs_from_the_variance_as_its_docstring_says():
    middle, edge = BetaPert(0, 30, 60), BetaPert(0, 0, 60)
    assert middle.variance == pytest.approx(60**2 / 28)
    assert edge.variance == pytest.approx(5 / 252 * 60**2)
    assert pert_variance(0, 60) / middle.variance == pytest.approx(0.78, abs=0.01)
    assert pert_variance(0, 60) / edge.variance == pytest.approx(1.4, abs=0.01)


def test_samples_stay_within_the_figures_and_have_their_mean_and_variance():
    pert, random = BetaPert(20, 45, 150), Random(3)
    drawn = [pert.sample(random) for _ in range(20_000)]
    mean = math.fsum(drawn) / len(drawn)
    assert min(drawn) >= 20 and max(drawn) <= 150
    assert mean == pytest.approx(pert.mean, abs=0.7)
    spread = math.fsum((one - mean) ** 2 for one in drawn) / len(drawn)
    assert spread == pytest.approx(pert.variance, rel=0.05)


def test_the_same_seed_draws_the_same():
    pert = BetaPert(20, 45, 150)
    assert pert.sample(Random(5)) == pert.sample(Random(5)) != pert.sample(Random(6))


def test_equal_figures_are_a_known_length():
    pert = BetaPert(45, 45, 45)
    assert (pert.mean, pert.variance, pert.sample(Random(1))) == (45, 0, 45)


@pytest.mark.parametrize("figures", [(30, 20, 60), (0, 70, 60), (-1, 5, 9), (0, 1, math.inf)])
def test_figures_out_of_order_are_refused(figures):
    with pytest.raises(ValueError, match="figures"):
        BetaPert(*figures)


def test_a_factor_scales_all_three():
    assert scaled((20, 40, 100), 1.5) == (30, 60, 150)
    with pytest.raises(ValueError, match="factor"):
        scaled((20, 40, 100), 0)


def test_what_is_left_of_a_job_in_hand_is_never_less_than_nothing():
    assert left_of((30, 60, 120), 20) == (10, 40, 100)
    assert left_of((30, 60, 120), 90) == (0, 0, 30)
    assert left_of((30, 60, 120), 500) == (0, 0, 0)


def test_a_job_with_one_figure_has_the_usual_spread_and_others_keep_their_own():
    assert spread((60, 60, 60)) == (45, 60, 120)
    assert spread((60, 60, 61)) == (60, 60, 61)
    assert spread((0, 0, 0)) == (0, 0, 0)
