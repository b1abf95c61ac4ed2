"""Threads against published tables: coarse pitches, stress areas, and what goes into what."""

from fractions import Fraction

import pytest

from parts.engine.fit import FitError, miss, parse, together
from parts.engine.fit.numbers import INCH
from parts.engine.fit.verdict import DOES_NOT, FITS, NOT_KNOWN

# ISO 261, coarse series.
COARSE = {"M6": 1, "M8": 1.25, "M10": 1.5, "M12": 1.75, "M14": 2, "M16": 2}
# From memory: ISO 261, the rest of the coarse series.
COARSE |= {"M1.6": 0.35, "M3": 0.5, "M5": 0.8, "M18": 2.5, "M24": 3, "M30": 3.5, "M36": 4}


@pytest.mark.parametrize(("size", "pitch"), COARSE.items())
def test_a_pitch_left_out_is_the_coarse_one(size, pitch):
    assert float(parse(size).pitch) == pitch
    assert parse(size) == parse(f"{size}x{pitch}")


# Stress areas as ISO 898-1 rounds them, by the list of
# https://www.engineeringtoolbox.com/metric-bolts-minimum-ultimate-tensile-proof-loads-d_2026.html
AREAS = [
    ("M6", 20.1), ("M8", 36.6), ("M8x1", 39.2), ("M10", 58.0), ("M10x1", 64.5), ("M12", 84.3),
    ("M12x1.25", 92.1), ("M14", 115), ("M14x1.5", 125), ("M16", 157),
]  # fmt: skip


@pytest.mark.parametrize(("size", "area"), AREAS)
def test_stress_areas_as_the_standard_rounds_them(size, area):
    assert parse(size).stress_area == pytest.approx(area, rel=0.006)


# pi/4 (d - 0.9381942 P)² of ISO 898-1, worked by hand with more places than the table.
UNROUNDED = [
    ("M12x1.25", 92.0718), ("M12x1.5", 88.1260), ("M14x1.5", 124.5455), ("M10x1.25", 61.1986),
]  # fmt: skip


@pytest.mark.parametrize(("size", "area"), UNROUNDED)
def test_stress_areas_unrounded(size, area):
    assert parse(size).stress_area == pytest.approx(area, abs=5e-5)


# 0.7854 (d - 0.9743/n)² of ASME B1.1, in² and mm².
@pytest.mark.parametrize(("size", "inches", "area"), [("7/16-20", 0.11872, 76.59), ("1/2-20", 0.15995, 103.20)])
def test_stress_areas_of_unified_threads(size, inches, area):
    assert parse(size).stress_area == pytest.approx(area, abs=0.006)
    assert parse(size).stress_area / float(INCH) ** 2 == pytest.approx(inches, abs=6e-6)


def test_the_profile_of_m12():
    """ISO 724 and ISO 898-1, from memory: M12 d1 10.106, d3 9.853 mm."""
    thread = parse("M12")
    assert thread.minor == pytest.approx(10.106, abs=5e-4)
    assert thread.root == pytest.approx(9.853, abs=5e-4)
    assert thread.height == pytest.approx(1.516, abs=5e-4)


# Bolt, nut, difference of diameter and pitch in mm, what happens. Common practice in the trade;
# the numbers follow from the 60° basic profile of ISO 68-1.
MISSES = [
    ("M12×1.25", "M12×1.5", 0, -0.25, "cross_threads", "a quarter pitch in 1.5 turns"),
    ("M12×1.25", "1/2-20 UNF", -0.700, -0.020, "spins_on", "only 49 % of the thread"),
    ("1/2-20", "M12×1.25", 0.700, 0.020, "will_not_start", "will not start"),
    ("7/16-20", "M12×1.25", -0.888, 0.020, "spins_on", "only 34 % of the thread"),
    ("M8×1.25", "5/16-18", 0.063, -0.161, "binds", "binds after 2 turns"),
]


@pytest.mark.parametrize(("bolt", "nut", "diameter", "pitch", "kind", "said"), MISSES)
def test_what_nearly_fits_does_not(bolt, nut, diameter, pitch, kind, said):
    found = miss(parse(bolt), parse(nut))
    assert found.diameter == pytest.approx(diameter, abs=6e-4)
    assert found.pitch == pytest.approx(pitch, abs=6e-4)
    assert found.kind == kind
    assert said in found.sentence
    verdict = together(parse(bolt).on("external"), parse(nut).on("internal"))
    assert (verdict.state, said in verdict.because) == (DOES_NOT, True)
    assert verdict.trap == (kind != "will_not_start")


def test_other_misses_follow_from_the_same_geometry():
    assert miss(parse("M10"), parse("M12")).kind == "drops_through"
    assert miss(parse("M12x1.25-LH"), parse("M12x1.25")).kind == "other_hand"
    assert miss(parse("M12x1.25"), parse("M12x1.25-LH")).pitch == 0
    slight = miss(parse("M12x1.26"), parse("M12x1.25"))
    assert abs(slight.pitch) == pytest.approx(0.01)
    assert "goes on by hand" in slight.sentence
    with pytest.raises(ValueError, match="is no miss"):
        miss(parse("M12"), parse("M12x1.75"))


def test_together_only_when_everything_agrees():
    bolt, nut = parse("M12x1.25-6g"), parse("M12-1.25-6H")
    assert together(bolt, nut).state == FITS
    assert together(bolt, bolt).because == "Both are bolts, M12×1.25."
    assert together(nut, nut).because == "Both are nuts, M12×1.25."
    assert together(bolt, parse("M12x1.25")).state == NOT_KNOWN
    assert together(bolt, parse("M12x1.25-LH-6H")).state == DOES_NOT
    assert together(parse("1/2-20 UNF-2A"), parse("1/2-20-2B")).state == FITS


# Designations and how they are spelt back. Forms: ISO 965-1 and ASME B1.1, from memory.
SPELLINGS = [
    ("M12", "M12×1.75", ""), ("m12 × 1,25 - 6g", "M12×1.25-6g", "external"),
    ("M12-1.25", "M12×1.25", ""), ("M12X1.25-LH-6H", "M12×1.25-LH-6H", "internal"),
    ("M12x1.25-6g-LH", "M12×1.25-LH-6g", "external"), ("M8 x 1 LH", "M8×1-LH", ""),
    ("M20×2-5g6g-L", "M20×2-5g6g-L", "external"), ("M6-6H/6g", "M6×1-6H/6g", ""),
    ("M6 6g/6H", "M6×1-6H/6g", ""), ("M12-6g6g-S", "M12×1.75-6g-S", "external"),
    ("1/2-20 UNF-2A", "1/2-20 UNF-2A", "external"), ("7/16-20", "7/16-20", ""),
    ("#10-32", "#10-32", ""), ("10-32 UNF", "#10-32 UNF", ""), ("½-20 UNF", "1/2-20 UNF", ""),
    ('5/16"-18 UNC 2B LH', "5/16-18 UNC-2B-LH", "internal"), ("1/2 UNF", "1/2-20 UNF", ""),
    ("1 1/8-7 UNC", "1 1/8-7 UNC", ""), ("1-8 UNC", '1"-8 UNC', ""), ("No. 10-24", "#10-24", ""),
]  # fmt: skip


@pytest.mark.parametrize(("typed", "canonical", "side"), SPELLINGS)
def test_every_spelling_has_one_canonical_form(typed, canonical, side):
    thread = parse(typed)
    assert (str(thread), thread.side) == (canonical, side)
    assert parse(canonical) == thread


def test_inches_are_exact():
    assert parse("1/2-20").diameter == Fraction(127, 10)
    assert parse("1/2-20").pitch == Fraction(127, 100)
    assert parse("#10-32").diameter == Fraction(19, 100) * INCH


REFUSED = [
    ("", "Write a thread such as M12×1.25 or 1/2-20 UNF."),
    ("hello", "“hello” is no thread: write one such as M12×1.25 or 1/2-20 UNF."),
    ("M", "“M” is no metric thread: write one such as M12×1.25."),
    ("M13", "M13 has no coarse pitch: write it, such as M13×1.5."),
    ("M12x9", "A pitch of 9 mm does not go with M12."),
    ("M0.5x0.2", "M0.5 is no thread of a car: diameters go from M1 to M300."),
    ("M12-6q", "“6q” in “M12-6q” is neither a pitch, LH nor a tolerance such as 6g or 6H."),
    ("M12-6g6H", "6g6H mixes bolt and nut: small letters are a bolt's, capitals a nut's."),
    ("M12-6H/5H", "6H/5H names one side twice: a pair is written 6H/6g."),
    ("M12-6g-6H", "“M12-6g-6H” says two different things with 6g and 6H."),
    ("1/2-20 UNC", "1/2 UNC has 13 threads per inch, not 20."),
    ("1/2", "“1/2” lacks its threads per inch: write one such as 1/2-20."),
    ("#14-20", "There is no size #14: sizes by number end at #12."),
    ("1/3-20", "“1/3” is no size in inches: write one such as 7/16 or 1 1/8."),
    ("1/0-20", "“1/0” is not a size: write a number such as 66.6."),
    ("1/2-20 UNX", "“UNX” in “1/2-20 UNX” is neither UNC, UNF, 2A, 2B nor LH."),
    ("M" * 90, "That is 90 characters long: 80 is the most."),
]


@pytest.mark.parametrize(("typed", "sentence"), REFUSED)
def test_what_cannot_be_read_says_what_to_write(typed, sentence):
    with pytest.raises(FitError) as found:
        parse(typed)
    assert str(found.value) == sentence
