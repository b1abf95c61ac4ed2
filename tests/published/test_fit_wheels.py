"""Wheels on hubs and studs against published tables."""

import math

import pytest

from parts.engine.fit import parse
from parts.engine.fit.hub import bore_verdict, pattern_verdict, wheel_on_hub
from parts.engine.fit.interface import Hub, Wheel
from parts.engine.fit.numbers import FitError, number
from parts.engine.fit.pattern import (
    back_to_centre,
    chord,
    parse_pattern,
    pcd_from_chord,
)
from parts.engine.fit.studs import engagement_needed, free_stud, full_turns, stud_check
from parts.engine.fit.verdict import DOES_NOT, FITS, NOT_KNOWN
from parts.engine.fit.wheel import Rim, backspace, offset, shift

# Studs, step, chord over circle, circle over chord. 3 studs: https://uniaobahia.org/how-to-measure-wheel-stud/
# 5 studs: https://4wdbits.co.nz/rimmeasurements.aspx ; the rest by geometry.
RATIOS = [
    (3, 1, 0.866025, 1.154701), (4, 1, 0.707107, 1.414214), (5, 1, 0.587785, 1.701302),
    (5, 2, 0.951057, 1.051462), (6, 1, 0.500000, 2.000000),
]  # fmt: skip


@pytest.mark.parametrize(("studs", "step", "short", "long"), RATIOS)
def test_chord_and_circle(studs, step, short, long):
    assert chord(1, studs, step) == pytest.approx(short, abs=5e-7)
    assert pcd_from_chord(1, studs, step) == pytest.approx(long, abs=5e-7)


# Adjacent chord in mm. Method as above; the chart at
# http://www.cerka.ca/trailer-tire/how-to-measure-bolt-centers has 5×4.5 in at 2 5/8 in.
CHORDS = [
    ("4x98", 69.2965), ("4x100", 70.7107), ("4x108", 76.3675), ("4x114.3", 80.8223),
    ("5x98", 57.6030), ("5x100", 58.7785), ("5x108", 63.4808), ("5x112", 65.8319),
    ("5x114.3", 67.1839), ("5x120", 70.5342), ("5x120.65", 70.9163), ("5x127", 74.6487),
    ("5x139.7", 82.1136), ("6x114.3", 57.1500), ("6x139.7", 69.8500),
]  # fmt: skip


@pytest.mark.parametrize(("text", "apart"), CHORDS)
def test_adjacent_chords(text, apart):
    pattern = parse_pattern(text)
    assert chord(float(pattern.pcd), pattern.studs) == pytest.approx(apart, abs=5.1e-5)


def test_five_on_four_and_a_half_inches():
    assert parse_pattern("5×4½") == parse_pattern("5x114,3") == parse_pattern("5 x 4.5in")
    assert str(parse_pattern('5x4 1/2"')) == "5×114.3"
    assert chord(114.3, 5) / 25.4 == pytest.approx(2.6450, abs=5e-5)
    assert chord(114.3, 5, 2) == pytest.approx(108.7058, abs=5e-5)


def test_the_rule_that_overreads():
    """Worked by hand: 5×114.3 with holes of 14 mm."""
    assert back_to_centre(114.3, 5, 14) == pytest.approx(115.71, abs=5e-3)
    assert back_to_centre(114.3, 5, 14) - 114.3 == pytest.approx(1.41, abs=5e-3)


@pytest.mark.parametrize(("one", "other", "apart"), [("5x112", "5x114.3", "1.352"), ("5x120", "5x120.65", "0.382")])
def test_circles_that_a_tape_cannot_tell_apart(one, other, apart):
    found = pattern_verdict(parse_pattern(one), parse_pattern(other))
    assert found.state == DOES_NOT
    assert f"differ by {apart} mm" in found.because and found.trap
    assert "callipers" in found.because


# Width in inches, ET in mm, backspace in mm and inches, with 1 in for the flanges:
# https://helpcenter.wheelpros.com/hc/en-us/articles/360055622091-How-do-I-determine-Backspace-and-Offset-
BACKSPACES = [(8, 35, 149.300, 5.8780), (7, 0, 101.600, 4.0000), (10, -12, 127.700, 5.0276)]


@pytest.mark.parametrize(("width", "et", "mm", "inches"), BACKSPACES)
def test_backspace(width, et, mm, inches):
    assert backspace(Rim(width, et)) == pytest.approx(mm, abs=5e-4)
    assert backspace(Rim(width, et)) / 25.4 == pytest.approx(inches, abs=5e-5)


def test_offset_from_a_measured_width():
    assert offset(5.5 * 25.4, 9 * 25.4) == pytest.approx(25.4)
    assert backspace(Rim(8, 35), overall=226.0) == pytest.approx(148.0)


# By geometry, worked by hand.
SHIFTS = [
    (Rim(8, 35), Rim(9, 20), 5, 32.700, -7.300, 40.000),
    (Rim(8, 35), Rim(8, 35), 15, 15.000, -15.000, 30.000),
]


@pytest.mark.parametrize(("old", "new", "spacer", "outer", "inner", "track"), SHIFTS)
def test_what_moves_where(old, new, spacer, outer, inner, track):
    found = shift(old, new, spacer)
    assert (found.outer, found.inner, found.track) == pytest.approx((outer, inner, track))


# 1.0 d steel, 1.5 d soft, the latter attributed to Carroll Smith:
# https://www.icscc.com/forums/threads/2209-stewards-proposal-22-lug-bolt-length.611/
TURNS = [
    ("M12x1.25", False, 9.6), ("M12x1.5", False, 8.0), ("M14x1.5", False, 9.333),
    ("M14x1.25", False, 11.2), ("1/2-20", False, 10.0), ("M12x1.5", True, 12.0),
    ("M14x1.5", True, 14.0),
]  # fmt: skip


@pytest.mark.parametrize(("size", "soft", "turns"), TURNS)
def test_full_turns(size, soft, turns):
    found = parse(size)
    needed = engagement_needed(float(found.diameter), soft)
    assert full_turns(needed, float(found.pitch)) == pytest.approx(turns, abs=5e-4)


def test_free_stud():
    assert free_stud(20, 8, 12) == 40
    enough = stud_check(40, 12, 1.5, pad=8, spacer=20)
    assert (enough.needed, enough.engaged, enough.turns, enough.lacking) == (12, 12, 8, 0)
    assert enough.enough
    short = stud_check(30, 12, 1.5, pad=8, spacer=20, soft=True)
    assert (short.enough, short.lacking) == (False, 16)
    assert stud_check(10, 12, 1.5, pad=8, spacer=20).engaged == 0


@pytest.mark.parametrize(
    ("bore", "spigot", "lacking"),
    [(None, "66.6", "bore of the wheel"), ("66.6", None, "spigot of the hub"), (None, None, "bore of the wheel")],
)
def test_what_is_not_measured_is_named(bore, spigot, lacking):
    told = bore_verdict(*(text and number(text) for text in (bore, spigot)))
    assert (told.state, told.because) == (NOT_KNOWN, f"The {lacking} is not written down.")


def test_bore_over_spigot():
    """0.1 mm to spare on the spigot, or a ring of up to 10 mm on the diameter: common practice, no source."""
    found = [bore_verdict(number(bore), number("66.6")) for bore in ("66.5", "66.7", "73.1", "76.6", "76.7", "112")]
    assert [each.state for each in found] == [DOES_NOT, FITS, FITS, FITS, DOES_NOT, DOES_NOT]
    assert found[-1].trap
    assert "too far for a ring: bore 112 mm, spigot 66.6 mm" in found[-1].because
    assert [each.because for each in found[:3]] == [
        "It does not go over the spigot: bore 66.5 mm, spigot 66.6 mm.",
        "It sits on the spigot: bore 66.7 mm, spigot 66.6 mm.",
        "It goes over the spigot, with a spigot ring 73.1 to 66.6 mm.",
    ]


def test_a_wheel_on_a_hub_needs_all_three():
    hub = Hub(parse_pattern("5x112"), number("66.6"), "cone60")
    assert wheel_on_hub(hub, Wheel(hub.pattern, number("66.6"), "cone60")).state == FITS
    assert wheel_on_hub(hub, Wheel(hub.pattern, None, "cone60")).state == NOT_KNOWN
    assert wheel_on_hub(hub, Wheel(hub.pattern, number("66.6"))).state == NOT_KNOWN
    ball = wheel_on_hub(hub, Wheel(hub.pattern, number("66.6"), "r13"))
    assert (ball.state, ball.because) == (DOES_NOT, "The seats differ: ball R13 and 60° cone.")
    four = wheel_on_hub(hub, Wheel(parse_pattern("4x112"), number("57.1"), ""))
    assert four.state == DOES_NOT
    assert "4×112 is not 5×112" in four.because and "does not go over" in four.because


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("five", "“five” is no bolt pattern: write one such as 5×112."),
        ("2x112", "2 studs are no wheel's: 3 to 12."),
        ("5x900", "A circle of 900 mm is no wheel's: 50 to 400 mm."),
    ],
)
def test_patterns_that_cannot_be(text, sentence):
    with pytest.raises(FitError) as found:
        parse_pattern(text)
    assert str(found.value) == sentence


def test_chords_turn_back_into_their_circle():
    for studs in range(3, 11):
        assert math.isclose(pcd_from_chord(chord(112, studs), studs), 112)
