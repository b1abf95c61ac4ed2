"""Work on springs: perches turned and no more leave a spring as stiff as it was."""

from datetime import UTC, datetime

import pytest

from builds.readings.engine.perches import leaves_springs, sets_cross
from builds.readings.engine.void import FinishedWork

pytestmark = pytest.mark.plain
NOW = datetime(2027, 3, 2, 17, tzinfo=UTC)


@pytest.mark.parametrize(
    ("title", "measures", "leaves", "sets"),
    [
        ("Set ride height", "ride_height", True, False),
        ("Lower it", "ride_height", True, False),
        ("Lower it", "", False, False),
        ("Weigh and set the cross weight", "ride_height corner_weights", True, True),
        ("Turn the perches", "", True, True),
        ("Corner balancing", "", True, True),
        ("Softer springs", "", False, False),
        ("New springs, set the ride height", "ride_height", False, False),
        ("Change the springs on the dampers", "", False, False),
    ],
)
def test_what_work_on_springs_was(title, measures, leaves, sets):
    work = FinishedWork(1, title, ("spring_change",), NOW, measures=tuple(measures.split()))
    assert (leaves_springs(work), sets_cross(work)) == (leaves, sets)


def test_a_strut_that_was_out_or_work_on_something_else_is_no_turn_of_a_perch():
    out = FinishedWork(1, "Set ride height", ("spring_change", "joint_opened"), NOW, measures=("ride_height",))
    bar = FinishedWork(2, "Turn the perches", ("bar_preload",), NOW)
    assert not any(rule(work) for rule in (leaves_springs, sets_cross) for work in (out, bar))
