"""The drafts a search keeps: the best first, none twice, and few that are late with the same jobs."""

from operator import attrgetter
from types import SimpleNamespace

from builds.planner.aim import GIVEN_UP, Aim
from builds.planner.model import Model
from builds.planner.pool import ALIKE, Pool
from tests.builds.planner.makers import job, problem


def drawn(value, late=(), ends=None):
    return SimpleNamespace(value=(value,), late=list(late), places=SimpleNamespace(end=ends or [value]))


def kept(pool):
    return [candidate.value[0] for candidate in pool.kept]


def test_the_best_come_first_and_the_worst_leave():
    pool = Pool(3, attrgetter("value"))
    told = [pool.join(drawn(value)) for value in (5, 7, 3, 6, 9)]
    assert kept(pool) == [3, 5, 6]
    assert told == [True, False, True, False, False]


def test_what_ends_alike_is_kept_once():
    pool = Pool(9, attrgetter("value"))
    assert [pool.join(drawn(5, ends=ends)) for ends in ([1, 4], [1, 4], [4, 1])] == [True, False, False]
    assert kept(pool) == [5, 5]


def test_few_are_late_with_the_same_jobs():
    pool = Pool(9, attrgetter("value"))
    for value in range(10, 10 + ALIKE):
        pool.join(drawn(value, late=[1]))
    pool.join(drawn(30, late=[2]))
    pool.join(drawn(20, late=[1]))
    assert kept(pool) == [*range(10, 10 + ALIKE), 30]
    pool.join(drawn(1, late=[1]))
    assert kept(pool) == [1, *range(10, 10 + ALIKE - 1), 30]


def near(*ends):
    """By the ends of a safety job, a wanted one and a heavy wanted one, each due at 10."""
    rows = (job("seam", rank="safety", due=10), job("wash", rank="wanted", due=10))
    aim = Aim(Model(problem(*rows, job("stripe", rank="wanted", due=10, weight=3), slots=1000)))
    return aim.near(aim.score(list(ends)), aim.late(list(ends)), list(ends))


def test_how_near_it_is_counts_slots_past_due_and_then_what_it_is_worth():
    assert near(10, 10, 10)[:2] == (0, 0)
    assert near(11, 10, 10)[:2] == (2, 0), "the car counts twice"
    assert near(10, 12, 11)[:2] == (0, 5)
    assert near(10, 12, 10) < near(10, 10, 11), "two jobs late by little, or one by more"
    assert near(10, 12, 10)[2:] == (0, 0, 0, 1, 20, 52)


def test_what_is_given_up_counts_the_same_however_late_it_is():
    assert near(10, 10 + GIVEN_UP - 1, 10)[:2] < near(10, 10 + GIVEN_UP, 10)[:2] == near(10, 900, 10)[:2]
