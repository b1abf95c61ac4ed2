"""What is likelier a slip than a car is asked about; likely bounds are common practice, no source."""

import pytest

from builds.readings.engine import READINGS
from builds.readings.engine.doubts import doubts
from builds.readings.engine.fields import FIGURE, fields_of

CORNERS = ("fl", "fr", "rl", "rr")


def asked(kind, amounts, system="metric", last=None):
    return doubts(fields_of(kind), amounts, system, last or {})


@pytest.mark.parametrize(
    ("kind", "amount", "question"),
    [
        ("corner_weights", 1_000, "1 kg: is that right? Mostly it lies between 50 kg and 600 kg."),
        (
            "tyre_pressures",
            4_000_000,
            "40 bar: is that right? Mostly it lies between 0.5 bar and 5 bar."
            " 40 psi would be 2.758 bar: then write psi beside it.",
        ),
        # No thousandths of an inch of what nobody measures in them: a point in the wrong place is likelier.
        (
            "ride_height",
            1_300_000,
            "1300 mm: is that right? Mostly it lies between 20 mm and 500 mm. Was 130 mm meant?",
        ),
        (
            "ride_height",
            15_000,
            "15 mm: is that right? Mostly it lies between 20 mm and 500 mm. 15 in would be 381 mm:"
            " then write in beside it.",
        ),
        ("caster", 30_000, "30°: is that right? Mostly it lies between -5° and 15°. Was 3° meant?"),
        ("camber", 60_000, "60°: is that right? Mostly it lies between -8° and 5°."),
        (
            "ride_height",
            4_500,
            "4.5 mm: is that right? Mostly it lies between 20 mm and 500 mm."
            " 4.5 in would be 114.3 mm: then write in beside it.",
        ),
    ],
)
def test_what_cannot_be_is_a_question_and_names_the_unit_that_fits(kind, amount, question):
    field = fields_of(kind)[0].slug
    assert asked(kind, {field: amount}) == {field: question}


@pytest.mark.parametrize("kind", [kind for kind in READINGS if fields_of(kind)[0].type == FIGURE])
def test_the_ends_of_what_is_likely_are_not_asked_about_and_one_beyond_is(kind):
    for field in fields_of(kind):
        if field.type == FIGURE and field.quantity != "mass":
            assert field.likely is not None and field.least <= field.likely[0] < field.likely[1] <= field.most
            for end, beyond in zip(field.likely, (-1, 1), strict=True):
                assert asked(kind, {field.slug: end}) == {}
                assert set(asked(kind, {field.slug: end + beyond})) == {field.slug}


def test_a_car_of_two_and_a_half_tonnes_is_asked_whether_it_was_pounds():
    weights = dict(zip(CORNERS, (590_000, 560_000, 555_000, 575_000), strict=True))
    (question,) = asked("corner_weights", weights).values()
    assert question == ("2280 kg on all four: is that right? 2280 lb would be 1034.19 kg: then write lb beside it.")
    heavier = dict(zip(CORNERS, (690_000, 660_000, 615_000, 635_000), strict=True))
    assert asked("corner_weights", heavier) == {
        "fl": "2600 kg on all four: is that right? 2600 lb would be 1179.34 kg: then write lb beside it."
    }
    assert set(asked("corner_weights", {**heavier, "fl": 300_000})) == {"fr", "rl", "rr"}
    assert set(asked("corner_weights", dict.fromkeys(CORNERS, 1_000))) == set(CORNERS)


@pytest.mark.parametrize(
    ("total", "is_asked"), [(349_996, True), (350_000, False), (2_200_000, False), (2_200_004, True)]
)
def test_the_whole_car_lies_within_what_is_likely(total, is_asked):
    assert bool(asked("corner_weights", dict.fromkeys(CORNERS, total // 4))) == is_asked


def test_what_fits_the_last_figure_in_another_unit_is_asked_about():
    last = {"fl": 110_000}
    (question,) = asked("wheel_torque", {"fl": 81_000}, last=last).values()
    assert question.endswith("It was 110 N·m. 81 lbf·ft would be 109.821 N·m: then write lbf·ft beside it.")
    assert asked("wheel_torque", {"fl": 88_000}, last=last) == {}


def test_a_figure_in_the_unit_of_another_garage_is_told_by_the_last_one():
    """110 N·m is 81 lbf·ft: typed into a garage of lbf·ft, 110 is 149 N·m and was 110 the last time."""
    last = {"fl": 110_000}
    typed = round(110 * 1355.8179483314004)
    assert asked("wheel_torque", {"fl": typed}, "imperial", last)["fl"] == (
        "110 lbf·ft: is that right? It was 81.132 lbf·ft. 110 N·m would be 81.132 lbf·ft: then write N·m beside it."
    )
    assert asked("wheel_torque", {"fl": 110_000}, "imperial", last) == {}
    assert asked("wheel_torque", {"fl": 132_000}, "metric", last) == {}


def test_a_kind_of_the_garages_own_and_checks_are_never_asked_about():
    assert asked("fuel_leak", {"passed": 0}) == {}
    assert asked("belt_geometry", {"shoulder": None, "lap": 50_000, "routing": 1}) == {}


@pytest.mark.parametrize(("kind", "left", "right", "slipped"), [
    ("camber", -1500, 1500, True),
    ("camber", 1670, -1500, True),
    ("camber", -250, 250, True),
    ("camber", -249, 250, False),
    ("camber", -250, 249, False),
    ("camber", -1500, -1250, False),
    ("caster", 5000, -5000, True),
    ("toe_front", 300, -300, False),  # a wheel turned a little while the strings were read
])  # fmt: skip
@pytest.mark.parametrize("axle", [("fl", "fr"), ("rl", "rr")])
def test_a_sign_that_one_wheel_of_an_axle_lost_is_asked_about(axle, kind, left, right, slipped):
    if axle[0] not in {field.slug for field in fields_of(kind)}:
        axle = ("fl", "fr")
    question = asked(kind, dict(zip(axle, (left, right), strict=True)))
    assert list(question) == ([axle[1]] if slipped else [])


def test_the_question_names_both_and_the_wheels_of_another_axle_are_let_be():
    words = "Front left -1.5° and front right 1.5°: is that right? One of them may have lost its sign."
    assert asked("camber", {"fl": -1500, "fr": 1500, "rl": 1000, "rr": 900}) == {"fr": words}
    assert asked("camber", {"fl": -1500, "rl": 1500}) == {}


def test_what_is_beyond_what_is_likely_is_asked_about_first():
    assert "Mostly it lies" in asked("camber", {"fl": -1500, "fr": 60_000})["fr"]
