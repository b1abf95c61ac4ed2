"""Which way toe, camber, caster and bump steer count stands wherever one is shown or typed."""

import pytest

from builds.paper.pages.setup_sheet import setup_sheet_rows
from builds.paper.sheets.setup import setup_sheet
from builds.readings.engine.signs import SIGNS, with_sign
from tests.builds.readings.reading_kit import HOUR, require, take, text, url
from tests.factories import NOW, VehicleFactory
from tests.paper.test_every_sheet import read

pytestmark = pytest.mark.django_db


@pytest.fixture
def car(cast, now):
    return VehicleFactory(garage=cast.garage, name="Heron")


@pytest.mark.parametrize("kind", SIGNS)
def test_every_page_and_the_sheet_say_it(owner, cast, car, kind):
    take(car, kind, cast.owner, at=NOW - HOUR)
    take(car, kind, cast.owner)
    require(car, cast.owner, kind)
    pages = [
        url("reading_list", car),
        url("reading_page", car, kind),
        url("reading_add", car, kind),
        url("target_edit", car, kind),
        url("target_offers", car),
        url("reading_compare", car),
    ]
    for page in pages:
        assert SIGNS[kind] in text(owner, page), page
    drawn = owner.get(url("reading_page", car, kind)).context["trends"]
    assert any(SIGNS[kind] in trend.title for trend in drawn)
    assert SIGNS[kind] in read(setup_sheet(setup_sheet_rows(car, NOW)))[1][0]


def test_what_has_no_sign_says_none(owner, cast, car):
    take(car, "wheel_torque", cast.owner)
    page = text(owner, url("reading_page", car, "wheel_torque"))
    assert not any(sign in page for sign in SIGNS.values())
    assert with_sign("Wheel torque", "wheel_torque") == "Wheel torque"
