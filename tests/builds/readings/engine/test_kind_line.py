"""How a reading stands by its figures and checks, each by itself."""

from typing import NamedTuple

import pytest

from builds.readings.engine.judge import IN, NOT_JUDGED, OUT, Goal
from builds.readings.engine.kind_line import KindLine
from builds.readings.engine.reading_kind import shipped_kind
from tests.factories import NOW


class Value(NamedTuple):
    amount: int
    typed: str = ""


class Limit(NamedTuple):
    goal: Goal


class Reading(NamedTuple):
    at: object = NOW


@pytest.mark.parametrize(("shoulder", "routed", "judged", "failed"), [
    (30_000, 1, IN, False), (60_000, 1, OUT, False), (30_000, 0, OUT, True),
])  # fmt: skip
def test_a_check_that_failed_is_told_from_a_figure_that_is_out(shoulder, routed, judged, failed):
    values = {"shoulder": Value(shoulder), "lap": Value(60_000), "routing": Value(routed)}
    limits = {"shoulder": Limit(Goal(0, 45_000)), "lap": Limit(Goal(40_000, 80_000))}
    line = KindLine(shipped_kind("belt_geometry"), reading=Reading(), values=values, targets=limits)
    assert (line.judged, line.failed) == (judged, failed)
    assert line.judged_value("routing") == (IN if routed else OUT)
    assert line.judged_value("shoulder") == (IN if shoulder < 45_000 else OUT)


def test_what_was_never_read_is_not_judged():
    line = KindLine(shipped_kind("belt_geometry"))
    assert line.judged == NOT_JUDGED and not line.failed
