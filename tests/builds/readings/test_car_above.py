"""The car from above on its measure page: each figure at its wheel, what counts no more hatched, struck and worded."""

from datetime import timedelta

import pytest

from builds.paper.pages.setup_sheet import setup_sheet_rows
from builds.readings.pages.corners import ON_THE_PAGE
from builds.readings.pages.page import list_view
from tests.builds.readings.reading_kit import take, voided
from tests.factories import NOW, VehicleFactory
from tests.pages import written


@pytest.fixture
def car(cast, now):
    return VehicleFactory(garage=cast.garage, name="Heron")


def drawn(client, car):
    body = written(client.get(f"/cars/{car.pk}/readings/").content.decode())
    return body[body.index('<figure class="above">') : body.index("</figure>")]


def test_each_figure_stands_at_its_wheel_as_on_the_setup_sheet(cast, car, owner):
    for kind in ON_THE_PAGE:
        take(car, kind, cast.owner)
    take(car, "wheel_torque", cast.owner)
    above = list_view(car, NOW).above
    front, rear = above.axles
    assert [line.label.partition(" (")[0] for line in front.rows] == [
        "Tyre pressures", "Corner weights", "Camber", "Front toe",
    ]  # fmt: skip
    assert rear.rows[-1].label.startswith("Rear toe")
    on_paper = setup_sheet_rows(car, NOW)
    for mine, theirs in zip(above.axles, on_paper.axles, strict=True):
        assert set(mine.rows) < set(theirs.rows)  # the sheet has the wheels' torque too
    assert above.derived == on_paper.derived
    drawing = drawn(owner, car)
    assert '<th scope="col">Front left</th>' in drawing and '<th scope="col">Rear right</th>' in drawing
    assert front.rows[1].left.value in drawing and "above-void" not in drawing


def test_what_counts_no_more_is_hatched_struck_and_said(cast, car, owner):
    take(car, "camber", cast.owner, at=NOW - timedelta(days=2))
    voided(car, cast.owner, "crash")
    (front, _) = list_view(car, NOW).above.axles
    value = front.rows[0].left.value
    drawing = drawn(owner, car)
    assert f'<td class="above-void"><s>{value}</s><span>void</span></td>' in drawing
    assert "<span>void, measure again, not required</span>" in drawing


def test_a_car_of_which_nothing_is_read_at_a_wheel_has_no_drawing(cast, car, owner):
    take(car, "wheel_torque", cast.owner)
    assert 'class="above"' not in owner.get(f"/cars/{car.pk}/readings/").content.decode()
