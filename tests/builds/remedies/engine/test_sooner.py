"""A change that lets work begin sooner, beside another of its kind."""

from builds.remedies.engine.changes.sooner import Sooner
from tests.builds.remedies.engine.garages import DAY, job


def test_more_of_the_same_for_the_same_work_adds_nothing_to_what_does():
    fit = job("fit", 4, due=DAY)
    less, more = (Sooner("heat", trouble, jobs=(fit,)) for trouble in (2, 3))
    assert more.asks_more_than(less) and not less.asks_more_than(more)
    assert not more.asks_more_than(Sooner("part", 1, jobs=(fit,)))
    assert not more.asks_more_than(Sooner("heat", 1, jobs=(fit, job("prime", 2))))
