"""The bench sums from the terminal: listed, asked for, worked out, as JSON for other programs."""

import json
from io import StringIO

import pytest
from django.core.management import CommandError, call_command

pytestmark = pytest.mark.plain
CAR = ("fl=312.5 kg", "fr=298 kg", "rl=287 kg", "rr=302.5 kg", "wheelbase=2575 mm", "track_front=1475 mm")
TYPED = (*CAR, "track_rear=1480 mm")


def said(*words, **options):
    out = StringIO()
    call_command(*words, stdout=out, **options)
    return out.getvalue()


def test_the_list_finds_by_a_word():
    assert "corner-weights" in said("sums")
    assert "corner-weights" not in said("sums", "thread")


def test_it_answers_with_units():
    assert "All together: 1200 kg ± 1" in said("sum", "corner-weights", *TYPED)


def test_json_has_figure_unit_and_how_far_off_in_one_system():
    total = json.loads(said("sum", "corner-weights", *TYPED, json=True, imperial=True))["answers"]["total"]
    assert total["unit"] == "lb"
    assert total["value"] == pytest.approx(2645.547146)  # checked with NIST SP 811 B.8
    assert total["give"] == pytest.approx(2.20462262)


def test_what_it_asks_stands_in_the_units_that_it_reads():
    assert "wheelbase=101.378" in said("sum", "corner-weights", imperial=True)
    assert "wheelbase=2575" in said("sum", "corner-weights")


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (("zebra",), "There is no sum"),
        (("fan", "zebra=1"), "is not one of its figures"),
        (("corner-weights", "fl=x"), "fl: Write a number"),
    ],
)
def test_what_it_cannot_read_is_refused(words, sentence):
    with pytest.raises(CommandError, match=sentence):
        said("sum", *words)
