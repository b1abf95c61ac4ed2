"""A journey: an arm tacked, checked, welded, tested, painted, refitted, till nothing is left."""

from datetime import timedelta

import pytest
from playwright.sync_api import expect

from builds.needs.actions import needs
from builds.recipes.actions import putting as recipes
from builds.recipes.engine.parse import load_shipped
from builds.steps.actions import steps
from builds.verdict.facts.verdict import verdict_of
from builds.work.models.hold_point import HoldPoint
from builds.work.models.need import Need
from tests.browser.conftest import unfold
from tests.browser.taps import finish
from tests.factories import GarageFactory, MembershipFactory, VehicleFactory

pytestmark = [pytest.mark.once, pytest.mark.parametrize("size", ["phone"], indirect=True)]

ARM = next(recipe for recipe in load_shipped() if recipe.key == "steering-arm-rework")
GEOMETRY = [
    *("baseline", "load", "camber-caster", "bump-steer", "toe", "wheel-torque", "lock-check", "earths"),
]


@pytest.fixture
def garage(db):
    garage = GarageFactory(name="Quayside Lock-up")
    for name, role in (("Ines", "owner"), ("Tove", "helper")):
        MembershipFactory(garage=garage, role=role, person__name=name)
    return garage


@pytest.fixture
def car(garage):
    return VehicleFactory(garage=garage, name="Heron", state="driveable")


@pytest.fixture
def arm(garage, car, clock):
    """Its plate, tube and hub nut are there."""
    owner = garage.memberships.get(role="owner")
    made = recipes.put(ARM, car, by=owner, at=clock.at, leave_out=GEOMETRY)
    for need in Need.objects.in_garage(garage):
        needs.got(need, by=owner, at=clock.at)
    return made


def test_a_welded_arm_until_the_car_may_be_driven(garage, car, arm, clock, sign_in, live_server):
    base, page = live_server.url, sign_in("Ines")
    owner = garage.memberships.get(role="owner")

    def done(key):
        clock.forward(hours=1)
        sign_in("Ines")
        page.goto(f"{base}/jobs/{arm[key].pk}/")
        finish(page, "Done already")
        page.get_by_text("Done already", exact=True).wait_for(state="detached")

    def looked_at_by_tove(point, value=""):
        # On her own phone: a hand on safety work writes nobody else's look down.
        sign_in("Tove")
        page.goto(f"{base}/hold-points/{point.pk}/sign/")
        if value:
            page.get_by_label("Done by whom").fill(value)
        page.get_by_role("button", name="Sign", exact=True).click()

    def car_says(words):
        page.goto(f"{base}/cars/{car.pk}/")
        unfold(page)
        page.locator("main").get_by_text(words).first.wait_for()
        expect(page.locator("main .no-drive").first).to_be_visible()

    done("strip")
    done("tack")
    car_says("A weld is only tacked: “Offer up the tacked arm")

    done("fit-check")
    page.locator("#hold-points").get_by_text("not signed").first.wait_for()
    page.goto(f"{base}/jobs/{arm['weld'].pk}/")
    assert page.get_by_role("button", name="Done already").count() == 0
    looked_at_by_tove(HoldPoint.objects.get(job=arm["fit-check"]))
    page.wait_for_url(f"{base}/jobs/{arm['fit-check'].pk}/")

    done("weld")
    car_says("A weld is not inspected: “Inspect the weld")

    clock.forward(hours=2)
    done("inspect")
    seen, tested = HoldPoint.objects.filter(job=arm["inspect"])
    looked_at_by_tove(seen)
    page.wait_for_url(f"{base}/jobs/{arm['inspect'].pk}/")
    looked_at_by_tove(tested)
    page.locator("main").get_by_text("This point asks for a value").first.wait_for()
    looked_at_by_tove(tested, "Harbour Inspection, dye penetrant")
    page.locator("#hold-points").get_by_text("Harbour Inspection, dye penetrant").wait_for()

    for key in ("clean", "prime", "topcoat"):
        clock.forward(days=5)
        steps.finish(arm[key], by=owner, at=clock.at)
    clock.forward(days=5)
    done("refit")
    car_says("Hold point not signed on “Refit the arm")
    for point in HoldPoint.objects.filter(job=arm["refit"]):
        looked_at_by_tove(point)
        page.wait_for_url(f"{base}/jobs/{arm['refit'].pk}/")
    done("wheels-on")

    page.goto(f"{base}/cars/{car.pk}/")
    page.get_by_role("heading", name="Heron", level=1).wait_for()
    expect(page.locator("main .no-drive")).to_have_count(0)
    left = verdict_of(car, clock.at + timedelta(minutes=1))
    assert not left.do_not_drive
    assert not [reason for reason in left.reasons if reason.kind in ("job", "joint")]
