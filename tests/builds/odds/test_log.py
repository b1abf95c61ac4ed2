"""What the log says of the estimates, and how much it is believed."""

import math

import pytest

from builds.odds.log import MOST_TIMES, PRIOR_JOBS, PRIOR_SPREAD, FinishedJob, corrected, factors, shared_spread


def worked(times, jobs, kind="brakes"):
    return [FinishedJob((kind,), 60, 60 * times)] * jobs


@pytest.mark.parametrize("jobs", [1, 4, 16, 400])
def test_the_factor_is_drawn_toward_one_when_there_is_little_data(jobs):
    found = factors(worked(2, jobs))["brakes"]
    assert found.jobs == jobs
    assert found.times == pytest.approx(2 ** (jobs / (jobs + PRIOR_JOBS)))


def test_twice_as_long_and_half_as_long_cancel_out():
    assert factors(worked(2, 3) + worked(0.5, 3))["brakes"].times == pytest.approx(1)


def test_each_kind_has_its_own_factor_and_a_job_counts_for_all_its_kinds():
    found = factors([FinishedJob(("brakes", "cooling"), 60, 120), *worked(1, 1, "cooling")])
    assert (found["brakes"].jobs, found["cooling"].jobs) == (1, 2)
    assert found["brakes"].times > found["cooling"].times > 1


@pytest.mark.parametrize(("likely", "actual"), [(0, 30), (30, 0), (0, 0)])
def test_a_job_without_minutes_says_nothing(likely, actual):
    assert factors([FinishedJob(("brakes",), likely, actual)]) == {}


def test_a_clock_left_running_does_not_speak_for_the_rest():
    assert factors(worked(400, 1)) == factors(worked(MOST_TIMES, 1))
    assert factors(worked(1 / 400, 1)) == factors(worked(1 / MOST_TIMES, 1))


@pytest.mark.parametrize(
    ("times", "jobs", "sentence"),
    [
        (1.7, 7, "Your brake jobs take 1.4 times what you write down (7 jobs)."),
        (0.5, 20, "Your brake jobs take 0.6 times what you write down (20 jobs)."),
        (1.2, 1, "Your brake jobs take about what you write down (1 job)."),
    ],
)
def test_the_sentence_says_the_factor_that_is_applied(times, jobs, sentence):
    assert factors(worked(times, jobs))["brakes"].sentence("brake") == sentence


def test_figures_are_corrected_by_the_kinds_that_are_known():
    found = factors(worked(2, 4) + worked(0.5, 4, "wiring"))
    both = corrected((30, 60, 90), ("brakes", "wiring"), found)
    assert both == pytest.approx((30, 60, 90))
    times = math.sqrt(2)
    assert corrected((30, 60, 90), ("brakes", "paint"), found) == pytest.approx((30 * times, 60 * times, 90 * times))
    assert corrected((30, 60, 90), ("paint",), found) == (30, 60, 90)


def test_what_all_jobs_share_is_the_prior_before_there_is_a_log():
    assert shared_spread([]) == pytest.approx(PRIOR_SPREAD)
    assert shared_spread([FinishedJob(("brakes",), 0, 60)]) == pytest.approx(PRIOR_SPREAD)


def test_what_all_jobs_share_is_better_known_with_every_job():
    log = [FinishedJob(("brakes",), 60, 60 * times) for times in (0.8, 1.2, 1.5, 0.9)]
    spreads = [shared_spread(log * many) for many in (1, 4, 16, 64)]
    assert PRIOR_SPREAD > spreads[0] > spreads[1] > spreads[2] > spreads[3] > 0


def test_one_job_by_hand():
    # One ratio has no deviation of its own: v = (4 / 4) / 5 = 0.2; 1 / (1 / 0.04 + 1 / 0.2) = 1 / 30.
    assert shared_spread([FinishedJob((), 60, 90)]) == pytest.approx((1 / 30) ** 0.5)


def test_a_log_that_scatters_leaves_more_open_than_one_that_does_not():
    calm = [FinishedJob((), 60, 60)] * 20
    wild = [FinishedJob((), 60, 60 * times) for times in (0.25, 4)] * 10
    assert shared_spread(calm) < shared_spread(wild) < PRIOR_SPREAD
