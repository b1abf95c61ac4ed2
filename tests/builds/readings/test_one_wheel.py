"""Who did one hub has one figure: it is kept, and the other wheels are as they were, or not known."""

from datetime import date

import pytest

from builds.readings.facts.readings import readings_of
from builds.readings.models.reading import Reading
from builds.sums.facts.car import figures_read
from builds.work.models.job import Job
from tests.builds.gear.gear_kit import piece
from tests.builds.readings.reading_kit import HOUR, limit, require, take, voided
from tests.factories import NOW, VehicleFactory
from tests.pages import words

pytestmark = pytest.mark.usefixtures("now")
KEY = "bearing_play"
OTHERS = "Not measured: front right, rear left, rear right."


@pytest.fixture
def car(cast):
    car = VehicleFactory(garage=cast.garage, name="Heron")
    require(car, cast.owner, KEY)
    limit(car, KEY)
    return car


def line(car):
    return readings_of(car.garage, [car], NOW)[car.pk].lines[KEY]


def one(client, car, **figures):
    """Through the form, of the wheels that are named."""
    sent = {f"value_{corner}": figure for corner, figure in figures.items()}
    return client.press(f"/cars/{car.pk}/readings/{KEY}/add/", {**sent, "instrument": "dial gauge"})


def test_one_wheel_read_after_work_on_it_leaves_the_others_not_known(helper, cast, car):
    take(car, KEY, cast.owner, at=NOW - 6 * HOUR)
    voided(car, cast.owner, "hub_opened")
    assert one(helper, car).status_code == 422 and Reading.objects.count() == 1  # nothing at all is no reading
    assert one(helper, car, fl="0.02").status_code == 303
    told = line(car)
    assert (told.state, told.only_a_note, set(told.values)) == ("stands", True, {"fl"})
    page = words(helper.get(f"/cars/{car.pk}/readings/{KEY}/").content.decode())
    assert OTHERS in page and "a note only" in page
    assert OTHERS in words(helper.get(f"/cars/{car.pk}/").content.decode())
    again = Job.objects.on(car).taking_again().open().get()
    assert again.measures == [KEY]
    one(helper, car, fr="0.01", rl="0.03")
    assert line(car).missing == ("Rear right",)  # what was read before of another wheel stands
    one(helper, car, rr="0.01")
    assert not line(car).only_a_note
    again.refresh_from_db()
    assert again.state == "done"


def test_one_wheel_read_while_all_stand_changes_that_one_alone(helper, cast, car):
    take(car, KEY, cast.owner, at=NOW - 6 * HOUR, amount=50)
    one(helper, car, rl="0.02")
    told = line(car)
    assert (told.only_a_note, told.amounts) == (False, {"fl": 50, "fr": 50, "rl": 20, "rr": 50})
    assert set(told.kept) == {"fl", "fr", "rr"}
    assert (told.taken_at, told.known_since) == (NOW, NOW - 6 * HOUR)
    figures = figures_read(car, {KEY}, NOW)
    assert (figures[f"{KEY}.rl"].at, figures[f"{KEY}.fr"].at) == (NOW, NOW - 6 * HOUR)
    assert "as of" in words(helper.get(f"/cars/{car.pk}/readings/{KEY}/").content.decode())
    voided(car, cast.owner, "hub_opened", hours=0)
    assert line(car).state == "void"


def test_older_figures_that_never_counted_do_not_count_beside_a_new_one(helper, cast, car):
    before = take(car, KEY, cast.owner, at=NOW - 6 * HOUR, amount=50, instrument="Old gauge")
    piece(garage=cast.garage, kind="free", name="Old gauge", last=date(2027, 3, 1))
    one(helper, car, fl="0.02")
    assert set(line(car).values) == {"fl"} and line(car).only_a_note, "read with what was out of its date"
    Reading.objects.filter(pk=before.pk).update(instrument="dial gauge")
    assert set(line(car).kept) == {"fr", "rl", "rr"}
    Reading.objects.filter(pk=before.pk).update(stripped=True)
    assert set(line(car).values) == {"fl"} and line(car).only_a_note, "read on a stripped car"
