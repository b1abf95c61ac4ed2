"""The odds against a textbook's network, and against what is known of the later of two chains."""

import math
from itertools import islice, pairwise

import pytest

from builds.odds.estimates import BetaPert
from builds.odds.simulate import runs
from builds.planner.problem import Job, Link, Problem, Vehicle
from tests.published.critical_path import critical_path_normal, pert_variance

# Hillier & Lieberman, Introduction to Operations Research, the chapter on PERT/CPM: a building
# project of 14 activities, in weeks, with a deadline of 47. The three figures are from memory;
# the sums below (44, 9, 0.84) are the book's.
NETWORK = {
    "excavate": ((1, 2, 3), ()),
    "foundation": ((2, 3.5, 8), ("excavate",)),
    "rough wall": ((6, 9, 18), ("foundation",)),
    "roof": ((4, 5.5, 10), ("rough wall",)),
    "exterior plumbing": ((1, 4.5, 5), ("rough wall",)),
    "interior plumbing": ((4, 4, 10), ("exterior plumbing",)),
    "siding": ((5, 6.5, 11), ("roof",)),
    "exterior painting": ((5, 8, 17), ("exterior plumbing", "siding")),
    "electrical": ((3, 7.5, 9), ("rough wall",)),
    "wallboard": ((3, 9, 9), ("interior plumbing", "electrical")),
    "flooring": ((4, 4, 4), ("wallboard",)),
    "interior painting": ((1, 5.5, 7), ("wallboard",)),
    "exterior fixtures": ((1, 2, 3), ("exterior painting",)),
    "interior fixtures": ((5, 5.5, 9), ("flooring", "interior painting")),
}
DEADLINE = 47
CRITICAL = (
    "excavate",
    "foundation",
    "rough wall",
    "exterior plumbing",
    "interior plumbing",
    "wallboard",
    "interior painting",
    "interior fixtures",
)
SLOTS_A_WEEK, MINUTES_A_SLOT = 100, 10
WEEK = SLOTS_A_WEEK * MINUTES_A_SLOT


def simulated(network, count, due=None):
    """The network as one car's jobs that nobody has to do, on slots of a hundredth of a week."""
    jobs = tuple(
        Job(
            name,
            "house",
            "needed",
            round(likely * SLOTS_A_WEEK),
            0,
            due=None if due is None else due * SLOTS_A_WEEK,
        )
        for name, ((_, likely, _), _) in network.items()
    )
    problem = Problem(
        slots=150 * SLOTS_A_WEEK,
        slot_minutes=MINUTES_A_SLOT,
        jobs=jobs,
        vehicles=(Vehicle("house"),),
        links=tuple(Link(first, name) for name, (_, before) in network.items() for first in before),
        goal="finish",
    )
    figures = {name: tuple(figure * WEEK for figure in row[0]) for name, row in network.items()}
    *_, tally = islice(runs(problem, figures, seed=7), count)
    return tally.odds(), [slots / SLOTS_A_WEEK for slots in tally.ready["house"]]


@pytest.fixture(scope="module")
def project():
    return simulated(NETWORK, 20_000, DEADLINE)


def test_the_longest_chain_has_the_books_length_variance_and_odds():
    path = critical_path_normal(NETWORK)
    assert path.activities == CRITICAL
    assert path.mean == 44
    assert path.variance == 9
    # The book prints 0.84; 0.8413 is the normal curve one deviation above its mean.
    assert path.odds(DEADLINE) == pytest.approx(0.8413, abs=5e-5)


@pytest.mark.parametrize(
    ("name", "mean", "variance"),
    [
        ("excavate", 2, 1 / 9),
        ("foundation", 4, 1),
        ("rough wall", 10, 4),
        ("exterior plumbing", 4, 4 / 9),
        ("wallboard", 8, 1),
        ("flooring", 4, 0),
        ("interior fixtures", 6, 4 / 9),
    ],
)
def test_each_activity_has_the_books_mean_and_variance(name, mean, variance):
    (low, likely, high), _ = NETWORK[name]
    assert BetaPert(low, likely, high).mean == pytest.approx(mean)
    assert pert_variance(low, high) == pytest.approx(variance)


def test_the_beta_distributions_own_variance_of_the_critical_chain():
    # Two independent computations of ours, no published source: 9.2857, not the book's 9.
    exact = sum(BetaPert(*NETWORK[name][0]).variance for name in CRITICAL)
    assert exact == pytest.approx(9.2857, abs=5e-5)


# Ours, from 2,000,000 runs of another program, no published source; the tolerances allow for
# 20,000 runs here.
def test_simulated_length_of_the_project(project):
    _, weeks = project
    mean = math.fsum(weeks) / len(weeks)
    assert mean == pytest.approx(44.325, abs=0.1)
    deviation = math.sqrt(math.fsum((week - mean) ** 2 for week in weeks) / len(weeks))
    assert deviation == pytest.approx(2.934, abs=0.06)


def test_simulated_odds_of_the_project(project):
    odds, weeks = project
    house = odds.vehicles["house"]
    assert house.share == pytest.approx(0.8164, abs=0.012)
    assert house.band[0] <= 0.8164 <= house.band[1]
    assert sum(week <= 44 for week in weeks) / len(weeks) == pytest.approx(0.474, abs=0.012)


@pytest.mark.parametrize(("share", "weeks"), [(0.5, 44.195), (0.8, 46.81), (0.9, 48.21), (0.95, 49.37)])
def test_simulated_weeks_by_which_it_is_done(project, share, weeks):
    house = project[0].vehicles["house"]
    assert house.ready_by(share) / SLOTS_A_WEEK == pytest.approx(weeks, abs=0.15)


@pytest.mark.parametrize(
    ("name", "index"),
    [
        ("excavate", 1),
        ("foundation", 1),
        ("rough wall", 1),
        ("exterior plumbing", 0.8304),
        ("interior plumbing", 0.8304),
        ("wallboard", 0.9015),
        ("interior fixtures", 0.9015),
        ("interior painting", 0.7443),
        ("flooring", 0.1572),
        ("roof", 0.0985),
        ("siding", 0.0985),
        ("exterior painting", 0.0985),
        ("exterior fixtures", 0.0985),
        ("electrical", 0.0711),
    ],
)
def test_simulated_share_of_runs_in_which_an_activity_is_critical(project, name, index):
    house = project[0].vehicles["house"]
    counts = {job.job: job.held_up for job in house.held_by}
    assert counts[name] / house.runs == pytest.approx(index, abs=0.015)


def test_the_later_of_two_equal_chains_is_later_than_either():
    """Two independent N(10, 2²): the later has mean 10 + 2 / sqrt(pi) = 11.1284.

    Clark, Operations Research 9 (1961) 145-162, the maximum of normal variables; from memory.
    Each chain is the sum of twelve symmetrical figures, close to normal, 90 weeks longer than 10.
    """
    links, half = 12, math.sqrt(7 * 2**2 / 12)
    figures = (100 / links - half, 100 / links, 100 / links + half)
    chains = [[f"{side} {k}" for k in range(links)] for side in ("left", "right")]
    network = {chain[0]: (figures, ()) for chain in chains}
    network |= {then: (figures, (first,)) for chain in chains for first, then in pairwise(chain)}
    _, weeks = simulated(network, 5_000)
    # The error of the mean of so many runs is 0.023 (deviation 1.65), four times that is allowed.
    assert math.fsum(weeks) / len(weeks) - 90 == pytest.approx(11.1284, abs=0.093)
    # What the longest chain by itself promises is sooner by all of that bias.
    assert critical_path_normal(network).mean - 90 == pytest.approx(10)
