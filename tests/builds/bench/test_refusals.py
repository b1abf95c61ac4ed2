"""Where a sum has no answer it says why, and gives no figure."""

import pytest

from builds.bench.catalogue import sum_called
from builds.bench.frame.read import TOO_FAR_APART, work_out

pytestmark = pytest.mark.plain


@pytest.mark.parametrize(
    ("name", "typed", "at", "sentence"),
    [
        # tie rod and arm in one line, and a tie rod without length
        ("steering-linkage", {"arm": "100", "arm_in": "0", "inner": "1400", "rack": "200"}, "arm", "straight ahead"),
        ("steering-linkage", {"arm": "100", "arm_in": "0", "inner": "1400", "rack": "100"}, "arm", "straight ahead"),
        (
            "steering-linkage",
            {"kingpins": "666", "arm": "500", "arm_in": "60", "points": "forward", "rack": "-321", "travel": "1"},
            "arm",
            "against the rack",
        ),
        ("steering-linkage", {"arm": "95", "inner": "652", "travel": "71"}, "travel", "over centre at 70.7 mm"),
        ("tie-rod-turn", {"arm": "100", "arm_in": "0", "inner": "1400", "rack": "100"}, "", TOO_FAR_APART),
        ("cg-height", {"raised": "1300"}, "raised", "more than the car weighs"),
        ("cg-height", {"wheelbase": "500", "radius_front": "900", "radius_rear": "300"}, "radius_front", "wheelbase"),
        ("cg-height", {"height": "1"}, "raised", "lift it more"),
        ("perch-turns", {"cross": "80", "fl": "100"}, "cross", "hang in the air"),
        # metres typed where millimetres stand, a pitch that no stud has, and along the car taken for across it
        ("perch-turns", {"wheelbase": "2.575"}, "wheelbase", "at least 500 mm"),
        ("corner-weights", {"wheelbase": "2.575"}, "wheelbase", "at least 500 mm"),
        ("stud-engagement", {"pitch": "0.1"}, "pitch", "at least 0.5 mm"),
        ("masses", {"masses": "jack 12 kg at 100; 2001"}, "masses", "more than 2 m to the side"),
        ("perch-turns", {"cross": "80", "perch": "fl"}, "cross", "no perch has as much"),
        ("caster-swing", {"swing": "2"}, "swing", "t least 5"),
        ("caster-swing", {"swing_out": "2"}, "swing_out", "t least 5"),
        ("bolt-torque", {"thread": "M99x1"}, "thread", "end at 39 mm"),
        ("cure-time", {"at": "68"}, "at", "Is it in °F?"),
        ("wheel-pattern", {"studs": "3", "which": "skip"}, "which", "four studs or more"),
        ("boiling", {"height": "300 ± 99999"}, "height", "measure it more closely"),
        ("inrush", {"low": "6"}, "high", "At most"),
        ("harness", {"loads": "Fuel\0pump 8 A"}, "loads", "cannot be seen"),
    ],
)
def test_what_has_no_answer_is_refused(name, typed, at, sentence):
    asked = sum_called(name)
    worked, errors = work_out(asked, asked.example | typed)
    assert worked is None
    assert list(errors) == [at]
    assert sentence in errors[at]


@pytest.mark.parametrize(
    ("name", "typed", "slug", "figure"),
    [
        ("wheel-pattern", {"studs": "4", "which": "skip", "centre": "108"}, "pcd", 108),
        ("bolt-torque", {"thread": "M39x4"}, "area", 975.8),
        ("cure-time", {"hours": "1", "at": "60", "degrees": "20"}, "hours", 16),
        ("caster-swing", {"turned_in": "-1", "turned_out": "0", "swing": "5", "inclination": "0"}, "shop", 5.74),
    ],
)
def test_what_lies_on_the_bound_is_worked_out(name, typed, slug, figure):
    """The stress area is that of ISO 898-1 for M39, from memory."""
    asked = sum_called(name)
    worked, errors = work_out(asked, asked.example | typed)
    assert not errors
    assert worked.value(slug) == pytest.approx(figure, rel=2e-3)


@pytest.mark.parametrize(
    ("metal", "said"),
    [("13.7", ["2.96 K"]), ("13.74", ["just under 3 K"]), ("13.8", [])],
)
def test_metal_just_too_cold_is_never_told_as_warm_enough(metal, said):
    asked = sum_called("dew-point")
    worked, _ = work_out(asked, asked.example | {"air": "16", "humid": "71", "metal": metal})
    assert worked.warnings == tuple(
        f"The metal is {margin} above the dew point: less than 3. Do not paint." for margin in said
    )
