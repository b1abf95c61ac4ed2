"""A reading taken with a wrench or scales out of their date says so, on the page and on paper."""

import uuid
from datetime import date

import pytest

from builds.joints import actions as joints
from builds.joints.facts import joint_standings
from builds.joints.models import Joint
from builds.readings.facts.readings import readings_of
from builds.readings.pages.setup import setup_sheet
from builds.verdict.facts.verdict import verdict_of
from garage.actions.gear import retire
from tests.builds.gear.gear_kit import piece
from tests.builds.readings.reading_kit import HOUR, require, take, text, url
from tests.factories import NOW, VehicleFactory

pytestmark = pytest.mark.django_db
SAID = "What it was taken with was out of its date: Ran out on 1 March 2027"


@pytest.fixture
def car(cast, now):
    return VehicleFactory(garage=cast.garage, name="Heron")


@pytest.mark.parametrize(("last", "out"), [(date(2027, 3, 1), True), (date(2027, 3, 2), False)])
def test_out_on_the_day_before_and_not_on_its_last_day(owner, cast, car, last, out):
    piece(garage=cast.garage, kind="free", name="Big torque wrench", last=last)
    take(car, "wheel_torque", cast.owner, instrument=" big Torque wrench ")
    for page in (url("reading_page", car, "wheel_torque"), url("reading_list", car)):
        assert (SAID in text(owner, page)) == out
    (kind,) = setup_sheet(car, NOW).kinds
    assert kind.instrument.startswith(SAID) == out
    assert readings_of(cast.garage, [car], NOW)[car.pk].lines["wheel_torque"].state == "stands"
    require(car, cast.owner, "wheel_torque")
    said = "Not known, taken with what was out of its date: Wheel torque. Ran out on 1 March 2027"
    assert any(reason.sentence.startswith(said) for reason in verdict_of(car, NOW).reasons) == out


@pytest.mark.parametrize(("last", "out"), [(date(2027, 3, 1), True), (date(2027, 3, 2), False)])
def test_a_joint_is_not_known_to_be_tight_by_such_a_wrench_and_says_so(owner, cast, car, last, out):
    piece(garage=cast.garage, kind="free", name="Big torque wrench", last=last)
    told = {"vehicle": car, "systems": ["wheels"], "opened_by": ["wheel_off"]}
    named, own = Joint.objects.create(name="Nuts", **told), Joint.objects.create(name="Studs", **told)
    Joint.objects.filter(pk=own.pk).update(wrench="Big torque wrench")
    slack = Joint.objects.create(vehicle=car, name="Bracket", opened_by=["wheel_off"])
    for joint, wrench in ((named, "big torque wrench "), (own, ""), (slack, "Big torque wrench")):
        mark = joints.mark(joint, by=cast.helper, at=NOW, key=uuid.uuid4(), torque_mnm=110_000, wrench=wrench)
        joints.sign(joint, by=cast.owner, at=NOW, key=uuid.uuid4(), of=mark.pk)
    states = [line.standing.state for line in joint_standings(cast.garage, [car], NOW)[car.pk]]
    assert states == (["stands", "wrench", "wrench"] if out else ["stands"] * 3)
    said = "Not known to be tight, torqued with what was out of its date: Nuts. Ran out on 1 March 2027"
    assert any(reason.sentence.startswith(said) for reason in verdict_of(car, NOW).reasons) == out
    assert ("torqued with what was out of its date" in text(owner, url("joint_list", car))) == out


def test_another_instrument_a_cars_gear_one_out_of_use_and_one_without_a_date_say_nothing(owner, cast, car):
    last = date(2027, 3, 1)
    piece(garage=cast.garage, kind="free", name="Scales", last=last)
    piece(car, kind="free", name="Wrench", last=last)
    piece(garage=cast.garage, kind="free", name="Wrench", last=last, retired_at=NOW, retired_because="dropped")
    piece(garage=cast.garage, kind="free", name="Wrench", last=None)
    take(car, "wheel_torque", cast.owner, instrument="Wrench")
    assert SAID not in text(owner, url("reading_page", car, "wheel_torque"))


def test_out_of_use_since_it_is_still_what_was_used_and_only_the_owner_calls_it_otherwise(owner, helper, cast, car):
    wrench = piece(garage=cast.garage, kind="free", name="Wrench", last=date(2027, 3, 1))
    take(car, "wheel_torque", cast.owner, instrument="Wrench")
    page = url("reading_page", car, "wheel_torque")
    retire(wrench, because="sold", at=NOW + HOUR)
    assert SAID in text(owner, page)
    whole = {"name": "Wrench", "kind": "free", "meaning": "until", "printed": "2027-03-01", "whose": "garage"}
    for more in ({"name": "Old wrench"}, {"printed": "2030-03-01"}, {"whose": f"car-{car.pk}"}):
        refused = helper.press(f"/gear/{wrench.pk}/edit/", whole | more)
        assert "Only the owner changes the name or the date of Wrench" in refused.content.decode(), more
        assert SAID in text(owner, page)
    assert helper.press(f"/gear/{wrench.pk}/edit/", whole | {"note": "in the drawer"}).status_code == 303


def test_each_of_the_earlier_ones_is_judged_on_its_own_day(owner, cast, car):
    piece(garage=cast.garage, kind="free", name="Wrench", last=date(2027, 3, 1))
    take(car, "wheel_torque", cast.owner, at=NOW - 30 * HOUR, instrument="Wrench")
    take(car, "wheel_torque", cast.owner, instrument="Wrench")
    page = text(owner, url("reading_page", car, "wheel_torque"))
    assert page.split(">All of them<")[1].count(SAID) == 1
