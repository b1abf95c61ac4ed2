"""A linkage whose outer wheel turns more than its inner one says so before its answers."""

import pytest

from builds.bench.catalogue import sum_called
from builds.bench.frame.read import work_out

LINKAGE = {"kingpins": "1400", "wheelbase": "2550", "arm": "125", "inner": "640", "rack": "100", "travel": "65"}
PAIR = {"inner": "38", "kingpins": "1400", "wheelbase": "2550"}


@pytest.mark.parametrize(
    ("slug", "typed", "says"),
    [
        ("steering-linkage", LINKAGE | {"per_turn": "50", "arm_in": "8"}, None),
        ("steering-linkage", LINKAGE | {"per_turn": "50", "arm_in": "-8"}, "33.6° against 30.2°: Ackermann is -54 %"),
        ("steering-linkage", LINKAGE | {"per_turn": "50", "arm_in": "-8", "travel": "8"}, None),  # below 5° it is noise
        ("ackermann", PAIR, None),
        ("ackermann", PAIR | {"outer": "38"}, None),
        ("ackermann", PAIR | {"outer": "42"}, "42.0° against 38.0°: Ackermann is -43 %"),
    ],
)
def test_it_is_said_before_the_answers(slug, typed, says):
    worked, errors = work_out(sum_called(slug), typed)
    assert errors == {}
    turns_more = [warning for warning in worked.warnings if "turns more than the inner one" in warning]
    assert len(turns_more) == (says is not None) and all(says in warning for warning in turns_more)
