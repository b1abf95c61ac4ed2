"""A reading that stands was touched by nothing since: told again, rule by rule, in other words."""

from datetime import timedelta

from hypothesis import given
from hypothesis import strategies as st

from builds.readings.engine import READINGS
from builds.readings.engine.kinds_of_work import KINDS
from builds.readings.engine.running import RUNNING_CHANGES
from builds.readings.engine.void import FinishedWork, TakenReading, standings
from builds.work.engine.running import Run
from tests.factories import NOW

HOURS = st.integers(0, 12)
WORK = st.lists(st.tuples(st.sampled_from(sorted(KINDS)), HOURS), max_size=4)
RUNS = st.lists(st.tuples(HOURS, st.booleans(), st.none() | HOURS), max_size=3)
TAKEN = st.dictionaries(st.sampled_from(sorted(READINGS)), st.none() | HOURS, min_size=1, max_size=8)
YOUNG = st.dictionaries(st.sampled_from(sorted(READINGS)), HOURS, max_size=4)


def hour(number):
    return NOW + timedelta(hours=number)


def disturbed(kind, taken, work):
    """By work after it, on itself or on what it was taken upon, as far down as that is on record."""
    chain = {kind}
    direct = any(ended >= taken[kind] and touches(name, chain) for name, ended in work)
    bases = [base for base in READINGS[kind].rests_on if taken.get(base) is not None]
    return direct or any(disturbed(base, taken, work) for base in bases)


def touches(name, readings):
    """Whether a kind of work disturbs one of them, or something that it rests on however far down."""
    below = set(readings)
    while more := {base for reading in below for base in READINGS[reading].rests_on} - below:
        below |= more
    return not KINDS[name].voids.isdisjoint(below)


@given(taken=TAKEN, work=WORK, runs=RUNS, young=YOUNG)
def test_it_stands_exactly_when_nothing_touched_it_since(taken, work, runs, young):
    found = standings(
        {kind: None if at is None else TakenReading(hour(at)) for kind, at in taken.items()},
        [FinishedWork(number, name, (name,), hour(at)) for number, (name, at) in enumerate(work)],
        [Run("Kiln Lane", hour(at), told, 0, None if end is None else hour(end)) for at, told, end in runs],
        {kind: hour(at) for kind, at in young.items()},
    )
    for kind, at in taken.items():
        if at is None:
            assert found[kind].state == "missing"
            continue
        ran = kind in RUNNING_CHANGES and any(since > at or (end is not None and end > at) for since, _, end in runs)
        old = at < young.get(kind, 0)
        assert (found[kind].state == "stands") == (not disturbed(kind, taken, work) and not ran and not old)
