"""Tacked is not welded, welded is not inspected: what the jobs of one weld leave."""

from datetime import UTC, datetime, timedelta
from itertools import permutations, product

import pytest

from builds.work.engine.welds import LABELS, ORDER, Weld, WeldJob, unfinished_weld, welds_left


def chain(*over):
    """A weld whose steps are over or not, in the order of the trade."""
    return [
        WeldJob(place, f"Step {weld}", weld, done) for place, (weld, done) in enumerate(zip(Weld, over, strict=True))
    ]


@pytest.mark.parametrize(
    ("over", "state", "first"),
    [
        ((False, False, False, False), None, None),
        ((True, False, False, False), "tacked", "checked"),
        ((True, True, False, False), "tacked", "welded"),
        ((True, True, True, False), "uninspected", "inspected"),
        ((True, True, True, True), None, None),
    ],
)
def test_each_step_of_a_weld_reads_as_the_trade_has_it(over, state, first):
    found = unfinished_weld(chain(*over))
    if state is None:
        assert found is None
    else:
        assert found is not None
        assert found[1] is not None
        assert (found[0], found[1].weld) == (state, first)


def test_a_later_step_does_not_hide_that_an_earlier_one_was_not_taken():
    found = unfinished_weld(chain(True, False, True, True))
    assert found is not None
    assert found[1] is not None
    assert (found[0], found[1].weld) == ("tacked", "checked")


def test_the_order_in_which_jobs_come_changes_nothing():
    for over in product((True, False), repeat=4):
        wanted = unfinished_weld(chain(*over))
        assert all(unfinished_weld(jobs) == wanted for jobs in permutations(chain(*over)))


def test_only_a_weld_that_was_never_begun_or_is_all_over_is_no_reason():
    for over in product((True, False), repeat=4):
        assert (unfinished_weld(chain(*over)) is None) == (len(set(over)) == 1)


def test_a_weld_that_lacks_steps_stays_as_the_last_one_left_it():
    tack, weld, inspect = (WeldJob(1, "One", each, True) for each in (Weld.TACKED, Weld.WELDED, Weld.INSPECTED))
    assert unfinished_weld([tack]) == ("tacked", None)
    assert unfinished_weld([tack, weld]) == ("uninspected", None)
    assert unfinished_weld([weld, inspect]) is None


def test_every_state_has_its_words():
    assert tuple(LABELS) == ORDER


AT = datetime(2027, 3, 2, 17, tzinfo=UTC)


def step(number, weld, hours, systems="steering", batch="arm", over=True):
    return WeldJob(number, f"Job {number}", weld, over, AT + timedelta(hours=hours), frozenset([systems]), batch)


@pytest.mark.parametrize(
    ("inspection", "left"),
    [
        (step(3, Weld.INSPECTED, 2, batch=3), []),
        (step(3, Weld.INSPECTED, 1, batch=3), [("uninspected", 2, True)]),
        (step(3, Weld.INSPECTED, 2, "cage", batch=3), [("uninspected", 2, True)]),
        (step(3, Weld.INSPECTED, 2, over=False), [("uninspected", 3, False)]),
    ],
)
def test_a_weld_without_its_last_step_is_cleared_by_a_later_look_at_its_systems_alone(inspection, left):
    jobs = [step(1, Weld.TACKED, 0), step(2, Weld.WELDED, 1), inspection]
    assert [(state, job.id, was_last) for state, job, was_last in welds_left(jobs)] == left


def test_a_weld_worked_on_after_its_inspection_is_inspected_again():
    jobs = [step(1, Weld.TACKED, 0), step(2, Weld.WELDED, 3), step(3, Weld.INSPECTED, 2)]
    assert [(state, job.id, was_last) for state, job, was_last in welds_left(jobs)] == [("uninspected", 3, False)]


def test_each_weld_of_a_car_is_told_by_itself():
    jobs = [step(1, Weld.TACKED, 0), step(2, Weld.TACKED, 0, batch="other")]
    assert [(state, job.id) for state, job, _ in welds_left(jobs)] == [("tacked", 1), ("tacked", 2)]


def test_a_weld_without_its_last_step_says_which_look_at_its_systems_comes_next():
    tacked = step(1, Weld.TACKED, 0)
    ahead, elsewhere = (step(2, Weld.INSPECTED, 1, system, system, over=False) for system in ("steering", "cage"))
    told = [(state, job.id, was_last) for state, job, was_last in welds_left([tacked, elsewhere, ahead])]
    assert told == [("tacked", 2, False)]
    assert [job.id for _, job, _ in welds_left([tacked, elsewhere._replace(id=3)])] == [1]


def test_a_later_look_undoes_no_earlier_one():
    first, second = step(1, Weld.INSPECTED, 1), step(2, Weld.INSPECTED, 2)
    assert list(welds_left([first, second])) == []
