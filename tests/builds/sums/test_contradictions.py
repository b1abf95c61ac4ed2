"""A sum kept on a car and a reading of the same thing that cannot both be right: both are said, and that they differ.

The reading wins nothing by being measured: what the sum rests on was measured too.
"""

import pytest

from builds.bench.catalogue import sum_called
from builds.bench.frame.read import work_out
from tests.builds.readings.reading_kit import take
from tests.builds.sums.test_on_jobs import LINKAGE
from tests.conftest import queries
from tests.factories import VehicleFactory
from tests.pages import words
from tests.pdf import answered

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("now")]
RACK = LINKAGE | {"travel": "65", "per_turn": "50"}


@pytest.fixture
def heron(cast):
    return VehicleFactory(garage=cast.garage, name="Heron")


def kept(client, car):
    return words(client.get(f"/cars/{car.pk}/sums/").content.decode())


def test_a_lock_angle_that_is_not_the_one_worked_out(owner, cast, heron):
    owner.press(f"/sums/steering-linkage/keep/{heron.pk}/", RACK)
    assert "They differ" not in kept(owner, heron)  # nobody has measured it
    inner = next(row.kept.said for row in owner.get(f"/cars/{heron.pk}/sums/").context["rows"])[0][1]
    take(heron, "lock_angles", cast.owner, amount=52_000)
    said = (
        f"Inner wheel at full rack: {inner} worked out, 52° (turned left, left wheel) and 52° (turned right, right"
        " wheel) measured. They differ"
    )
    assert said in kept(owner, heron)
    setup = " ".join(" ".join(answered(owner.get(f"/cars/{heron.pk}/setup.pdf"))).split())
    assert said in setup


@pytest.mark.parametrize(("off", "differs"), [(2_900, False), (3_100, True), (-3_100, True)])
def test_what_a_plane_sum_may_be_off_is_no_contradiction(owner, cast, heron, off, differs):
    owner.press(f"/sums/steering-linkage/keep/{heron.pk}/", RACK)
    worked, _ = work_out(sum_called("steering-linkage"), RACK)
    take(heron, "lock_angles", cast.owner, amount=round(worked.answers[0].value * 1000) + off)
    said = owner.get(f"/cars/{heron.pk}/sums/").context["rows"][0].differs
    assert any(sentence.startswith("Inner wheel") for sentence in said) is differs


def test_a_sum_that_nothing_measures_costs_no_query_more(owner, heron):
    owner.press(f"/sums/corner-weights/keep/{heron.pk}/", {"fl": "312", "fr": "298", "rl": "287", "rr": "302"})
    before = queries(owner, f"/cars/{heron.pk}/sums/")
    owner.press(f"/sums/fan/keep/{heron.pk}/", {})
    assert queries(owner, f"/cars/{heron.pk}/sums/") == before


def test_a_note_contradicts_nothing(owner, cast, heron):
    owner.press(f"/sums/steering-linkage/keep/{heron.pk}/", RACK)
    take(heron, "lock_angles", cast.owner, amount=52_000, instrument="")
    assert "They differ" not in kept(owner, heron)
