"""Wheels and studs, as the sums say them, against published charts.

Sources: chord factors of published stud charts (5 studs 1.7012, 3 studs 1.1547); backspace with 1 in for both flanges,
a maker's help page; 1.0 across in steel common practice, 1.5 in soft metal attributed to Carroll Smith.
"""

import pytest

from builds.bench.catalogue import sum_called
from builds.bench.frame.read import work_out

pytestmark = pytest.mark.plain


def worked(name, **typed):
    answer, errors = work_out(sum_called(name), typed)
    assert not errors
    return answer


@pytest.mark.parametrize(
    ("studs", "which", "centre", "circle"),
    [
        ("3", "next", "86.6025", 100),
        ("4", "next", "70.7107", 100),
        ("5", "next", "67.1839", 114.3),
        ("5", "skip", "108.7058", 114.3),
        ("6", "next", "69.85", 139.7),
    ],
)
def test_the_circle_of_the_studs(studs, which, centre, circle):
    assert worked("wheel-pattern", studs=studs, which=which, centre=centre).value("pcd") == pytest.approx(
        circle, abs=1e-3
    )


def test_from_the_gap_between_two_studs():
    found = worked("wheel-pattern", studs="5", gap="55.18", hole="12")
    assert found.value("pcd") == pytest.approx(114.293, abs=1e-3)
    assert {answer.slug: answer.words for answer in found.answers}["likely"] == "5×114.3"


def test_two_circles_that_a_tape_cannot_tell_apart_are_both_named():
    found = worked("wheel-pattern", studs="5", centre="70.7", resolves="0.5")
    assert {answer.slug: answer.words for answer in found.answers}["likely"] == "5×120, or 5×120.65"
    assert found.warnings


@pytest.mark.parametrize(
    ("typed", "field"),
    [
        ({"studs": "4.5", "centre": "70"}, "studs"),
        ({"studs": "3", "which": "skip", "centre": "70"}, "which"),
        ({"studs": "5"}, "centre"),
        ({"studs": "5", "centre": "70", "gap": "58"}, "centre"),
    ],
)
def test_what_was_not_measured_so_is_said(typed, field):
    answer, errors = work_out(sum_called("wheel-pattern"), typed)
    assert answer is None
    assert list(errors) == [field]


def test_what_moves_where():
    found = worked("wheel-offset", old_width="8", old_offset="35", new_width="9", new_offset="20", spacer="5")
    moves = [found.value(slug) for slug in ("outer", "inner", "track")]
    assert moves == pytest.approx([32.7, -7.3, 40.0])
    assert found.value("old_backspace") == pytest.approx(149.3)
    spaced = worked("wheel-offset", old_width="8", old_offset="35", new_width="8", new_offset="35", spacer="15")
    assert [spaced.value(slug) for slug in ("outer", "inner", "track")] == pytest.approx([15, -15, 30])
    assert spaced.value("acts_as") == 20


@pytest.mark.parametrize(
    ("across", "pitch", "nut", "turns"),
    [
        ("12", "1.25", "steel", 9.6),
        ("12", "1.5", "steel", 8.0),
        ("14", "1.5", "steel", 9.3333),
        ("12", "1.5", "soft", 12.0),
        ("14", "1.5", "soft", 14.0),
    ],
)
def test_turns_wanted(across, pitch, nut, turns):
    found = worked("stud-engagement", free="60", across=across, pitch=pitch, pad="8", nut=nut)
    assert found.value("turns_needed") == pytest.approx(turns, abs=1e-4)


def test_a_stud_that_is_just_long_enough_and_one_a_tenth_shorter():
    typed = {"across": "12", "pitch": "1.5", "spacer": "20", "pad": "8"}
    assert worked("stud-engagement", free="40", **typed).value("stud") == 40
    assert not worked("stud-engagement", free="40", **typed).warnings
    assert worked("stud-engagement", free="39.9", **typed).warnings
