"""What is typed into a sum is read as a reading would be, with the same words beside the figure."""

from dataclasses import replace

import pytest

from builds.bench.catalogue import sum_called
from builds.bench.frame.drawing import Drawing
from builds.bench.frame.read import TOO_FAR_APART, read, work_out
from builds.bench.frame.sums import Answer, Worked

pytestmark = pytest.mark.plain
DRAWING = Drawing("", "", ())


@pytest.mark.parametrize(("typed", "degrees"), [("0°10'", 10 / 60), ("-6'", -0.1), ("1.5 mm at 470 mm", 0.18286)])
def test_an_angle_in_minutes_or_across_a_rim_is_degrees(typed, degrees):
    given = read(sum_called("toe-units"), {"angle": typed, "across": "470"})
    assert given.figures["angle"] == pytest.approx(degrees, abs=1e-5)


def test_what_is_off_beyond_all_figures_has_no_answer():
    asked = sum_called("toe-units")
    far = replace(asked, work=lambda given, texts: Worked((Answer("a", "A", given["across"] * 1e299),), DRAWING))
    typed = {"angle": "1", "across": "470"}
    assert work_out(far, typed)[0] is not None
    assert work_out(far, typed | {"across": "470 ± 999999999999999"}) == (None, {"": TOO_FAR_APART})
