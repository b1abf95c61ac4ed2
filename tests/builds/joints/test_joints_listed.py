"""The list of a car's joints: on the day's page, in other units, whose part is off the car."""

import uuid
from datetime import timedelta

import pytest

from builds.joints.facts import joint_lines
from builds.joints.models import Joint
from parts.actions import stock
from parts.actions.places import car_place, house_place
from tests.builds.joints.joint_kit import FORM, mark, sign, state
from tests.conftest import queries
from tests.factories import NOW
from tests.pages import words
from tests.parts.factories import PartFactory, PlaceFactory

pytestmark = pytest.mark.usefixtures("now")


def test_the_days_page_marks_and_signs_it_too(owner, helper, cast, car, nuts):
    from tests.factories import EntryFactory, EventFactory

    entry = EntryFactory(event=EventFactory(garage=cast.garage), vehicle=car)

    def write(client, to, seen, **more):
        data = {"item": f"joint-{nuts.pk}", "to": to, "seen": seen, **more}
        key = {"Idempotency-Key": str(uuid.uuid4()), "Accept": "application/json"}
        return client.post(f"/paddock/{entry.event_id}/write/", data, headers=key).json()

    assert "maker" in write(helper, "marked", 0, value="60")["told"]
    assert write(helper, "marked", 0, value="112")["version"] == 1
    assert "somebody else" in write(helper, "signed", 1)["told"]
    assert write(owner, "signed", 1)["state"] == "signed"
    assert write(helper, "marked", 2, value="110")["version"] == 3
    # Who looked at the mark before this one has not looked at this one.
    late = write(owner, "signed", 1)
    assert late["clash"] and late["state"] == "marked" and "anew" in late["told"]
    assert write(owner, "signed", 3)["state"] == "signed"
    # A mark from a phone that knew of no signature does not take it away.
    assert write(helper, "marked", 1, value="110")["clash"]


def test_imperial_garages_type_pound_feet(owner, cast, car):
    cast.garage.units = "imperial"
    cast.garage.save()
    owner.press(f"/cars/{car.pk}/joints/add/", {**FORM, "figure_mnm": "85"})
    # 85 lbf·ft = 115.2445 N·m: NIST SP 811, Appendix B.8.
    assert Joint.objects.get().figure_mnm == 115_245


def test_one_joint_or_thirty_take_the_same_queries(owner, car, nuts):
    mark(owner, nuts)
    one = queries(owner, f"/cars/{car.pk}/joints/")
    for number in range(29):
        Joint.objects.create(vehicle=car, name=f"Joint {number}")
    assert queries(owner, f"/cars/{car.pk}/joints/") == one


def test_a_joint_whose_part_is_off_the_car_is_loose_until_it_is_back(owner, helper, car):
    """Whatever was marked meanwhile."""
    by, shelf = {"by": car.garage.memberships.first(), "at": NOW - timedelta(hours=3)}, PlaceFactory(garage=car.garage)
    rod = PartFactory(garage=car.garage, name="Tie rod end", systems=["steering"], single=True)
    stock.move(rod, "receive", 1, house_place(car.garage, "supplier"), shelf, **by)
    stock.move(rod, "fit", 1, shelf, car_place(car), **by)
    asked = {"name": "Rod end", "systems": ["steering"], "opened_by": ["steering_arm"]}
    owner.press(f"/cars/{car.pk}/joints/add/", FORM | asked)
    joint = Joint.objects.get()
    mark(helper, joint)
    sign(owner, joint)
    assert state(car) == "stands"
    off = {"quantity": 1, "source": car_place(car).pk, "target": shelf.pk}
    answer = owner.press(f"/parts/{rod.pk}/move/take_off/", off)
    assert answer.status_code == 303
    said_of = [line.standing for line in joint_lines(car.garage, [car], NOW)[car.pk]]
    assert [(one.state, one.words) for one in said_of] == [
        ("loose", "“Owed: Tie rod end” is not done: a part is off the car.")
    ]
    mark(helper, joint)
    assert state(car) == "loose"
    assert "“Owed: Tie rod end” is not done" in words(owner.get(f"/cars/{car.pk}/joints/").content.decode())
