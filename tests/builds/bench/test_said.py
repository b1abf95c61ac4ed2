"""Figures inside sentences stand in the units of the garage, as those beside an answer do."""

import pytest

from builds.bench.catalogue import sum_called
from builds.bench.frame.drawing import Label
from builds.bench.frame.read import work_out
from builds.bench.frame.say import sentence_said

pytestmark = pytest.mark.plain


@pytest.mark.parametrize(
    ("metric", "imperial"),
    [
        ("It locks at 70.9 mm of travel.", "It locks at 2.79 in of travel."),
        ("82.0 N·m is 70.2 % of proof, 34.2 kN.", "60.5 lbf·ft is 70.2 % of proof, 7688 lbf."),
        ("6 mm², 2.8 mm of copper across.", "6 mm², 0.11 in of copper across."),
        ("At 104 °C it boils; 4.0 m more.", "At 219 °F it boils; 13 ft more."),
    ],
)
def test_a_sentence_in_inches_and_pounds(metric, imperial):
    assert sentence_said(metric, "imperial") == imperial
    assert sentence_said(metric, "metric") == metric


def metric_as(name, **typed):
    """The example with its figures in metric units beside them, so that a garage of inches reads the same car."""
    asked = sum_called(name)
    given = asked.example | typed
    return asked, {
        ask.slug: given[ask.slug] if ask.is_text else f"{given[ask.slug]} {ask.unit}"
        for ask in asked.asks
        if given.get(ask.slug)
    }


def test_warnings_refusals_and_drawings_say_inches_too():
    worked, _ = work_out(*metric_as("wheel-offset"), "imperial")
    assert worked.warnings == ("The outer edge comes 1.29 in nearer to the wing: look in bump and at full lock.",)
    worked, _ = work_out(*metric_as("corner-weights"), "imperial")
    assert "49.8 in behind the front axle" in worked.drawing.words
    assert "688.9 lb" in {shape.words for shape in worked.drawing.shapes if isinstance(shape, Label)}
    _, errors = work_out(*metric_as("steering-linkage", arm="95", inner="652", travel="71"), "imperial")
    assert "over centre at 2.78 in of rack travel" in errors["travel"]
