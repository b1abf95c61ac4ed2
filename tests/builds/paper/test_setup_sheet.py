"""The setup sheet: the car from above on one page, with what was read at each wheel and what holds no more."""

from datetime import timedelta

import pytest

from builds.paper.pages.setup_sheet import setup_sheet_rows
from builds.paper.sheets.setup import setup_sheet
from builds.readings.actions import readings
from builds.readings.actions.readings import TargetInput
from builds.readings.engine.required import SENSIBLE
from builds.readings.engine.vocabulary import READINGS
from builds.readings.facts.kinds import kind_of
from tests.builds.readings.reading_kit import limit, require, take, voided
from tests.factories import NOW, VehicleFactory
from tests.paper.rendering import over_each_other, placed_words
from tests.pdf import texts

DAY = timedelta(days=1)


@pytest.fixture
def car(cast, now):
    return VehicleFactory(garage=cast.garage, name="Heron", what="rear-drive coupe, hill climbs")


def test_every_usual_reading_has_room_on_one_page_void_or_not(cast, car, tmp_path):
    require(car, cast.owner, *SENSIBLE)
    for number, kind in enumerate(SENSIBLE):
        limit(car, kind)
        take(car, kind, (cast.owner, cast.helper)[number % 2], at=NOW - (1 + number // 8) * DAY)
    (whole,) = texts(setup_sheet(setup_sheet_rows(car, NOW)))
    assert "Wheel torque stands, wanted at least 0 N·m" in whole and "page 1 of 1" in whole
    voided(car, cast.owner, "crash", "spring_change")
    data = setup_sheet(setup_sheet_rows(car, NOW))
    (text,) = texts(data)
    assert "Wheel torque void, measure again, wanted at least 0 N·m" in text
    assert "Front left" in text and text.count("“Replace the steering arm” was") == 1
    assert [over_each_other(page) for page in placed_words(data, tmp_path)] == [[]]


def test_every_reading_there_is_flows_over_three_pages(cast, car, tmp_path):
    for kind in READINGS:
        take(car, kind, cast.owner)
    pages = placed_words(setup_sheet(setup_sheet_rows(car, NOW)), tmp_path)
    assert len(pages) == 3
    assert [over_each_other(page) for page in pages] == [[], [], []]


def test_a_figure_stands_at_its_wheel_and_what_differs_there_beside_it(cast, car, tmp_path):
    camber = kind_of(car.garage, "camber")
    aims = {wheel: TargetInput("off", -1500, 200, "-1.5", "0.2", "°") for wheel in ("fl", "fr", "rl")}
    readings.set_targets(car, camber, aims | {"rr": TargetInput("off", -900, 200, "-0.9", "0.2", "°")})
    take(car, "camber", cast.owner, amount=-1500)
    ((front, rear),) = [setup_sheet_rows(car, NOW).axles]
    assert (front.wheels, rear.wheels) == (("Front left", "Front right"), ("Rear left", "Rear right"))
    assert front.rows[0].said == "stands, not required, wanted -1.5° ± 0.2°"
    assert (front.rows[0].left.value, front.rows[0].left.note) == ("-1.5°", "in")
    assert rear.rows[0].said == "stands, not required"
    assert (rear.rows[0].left.note, rear.rows[0].right.note) == ("in, wanted -1.5° ± 0.2°", "out, wanted -0.9° ± 0.2°")
    (page,) = placed_words(setup_sheet(setup_sheet_rows(car, NOW)), tmp_path)
    places = {word.text: word for word in reversed(page)}  # the first of each
    assert places["out,"].left > 300 and places["out,"].top > places["Rear"].top
