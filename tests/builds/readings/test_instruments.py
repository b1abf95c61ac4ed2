"""A reading taken with a wrench or scales out of their date says so, on the page and on paper."""

import uuid
from datetime import date

import pytest

from builds.gear.actions.pieces import change_piece
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


NOT_KNOWN = "Not known, taken with what was out of its date: Wheel torque."


class TestChangedSince:
    """What was measured with what had run out stays so, whatever becomes of that piece or of its name."""

    @pytest.fixture
    def wrench(self, cast, car):
        require(car, cast.owner, "wheel_torque")
        take(car, "wheel_torque", cast.owner, instrument="Torque wrench")
        return piece(garage=cast.garage, kind="free", name="Torque wrench", last=date(2027, 3, 1))

    def doubted(self, car):
        return any(reason.sentence.startswith(NOT_KNOWN) for reason in verdict_of(car, NOW + 9 * HOUR).reasons)

    @pytest.mark.parametrize(
        "change",
        [
            {"name": "Big torque wrench"},
            {"printed_on": date(2028, 3, 1)},
            {"printed_on": None, "precision": ""},
            {"member": True},
        ],
    )
    def test_by_the_owner(self, cast, car, wrench, change):
        assert self.doubted(car)
        told = {**change, **({"member": cast.helper} if "member" in change else {})}
        change_piece(wrench, by=cast.owner, at=NOW + HOUR, **told)
        assert self.doubted(car)
        take(car, "wheel_torque", cast.owner, at=NOW + 2 * HOUR, instrument="Torque wrench")
        assert not self.doubted(car)

    def test_unless_it_was_only_written_down_wrong(self, cast, car, wrench):
        change_piece(wrench, by=cast.owner, at=NOW + HOUR, printed_on=date(2028, 3, 1), all_along=True)
        assert not self.doubted(car)

    @pytest.mark.parametrize("retired", [True, False])
    def test_by_another_of_its_name_that_came_later(self, cast, car, wrench, retired):
        if retired:
            retire(wrench, because="lost", at=NOW + HOUR)
        new = piece(garage=cast.garage, kind="free", name="torque wrench", last=date(2028, 1, 1), made_at=NOW + HOUR)
        assert self.doubted(car)
        take(car, "wheel_torque", cast.owner, at=NOW + 2 * HOUR, instrument="Torque wrench")
        assert self.doubted(car) is not retired  # of two in use it may be either
        retire(new, because="lent", at=NOW + 3 * HOUR)
        assert self.doubted(car) is not retired

    @pytest.mark.parametrize("typed", ["torque-wrench", "the torque  wrench.", "Torque wrench, the red one"])
    def test_as_people_write_it(self, cast, car, wrench, typed):
        take(car, "wheel_torque", cast.owner, at=NOW + HOUR, instrument=typed)
        assert self.doubted(car)
        piece(garage=cast.garage, kind="free", name="Torque wrench, the red one", last=date(2028, 1, 1))
        assert self.doubted(car) is (typed != "Torque wrench, the red one")
