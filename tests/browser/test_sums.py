"""Journeys of the bench: weights put right by perch turns, an arm shortened and its lock check asked for."""

import re

import pytest

from builds.steps.actions import hold_points, jobs
from garage import clock
from garage.models import Vehicle
from tests.browser.conftest import unfold
from tests.browser.taps import finish
from tests.factories import GarageFactory, MemberHoursFactory, MembershipFactory

# The browser adds nothing that a database changes: the rooms test what is pressed here on both.
pytestmark = [pytest.mark.once, pytest.mark.parametrize("size", ["phone"], indirect=True)]
BEFORE, AFTER = ("312,5", "298", "287", "302,5"), ("305", "305,5", "294,5", "295")


@pytest.fixture
def car(db):
    garage = GarageFactory(name="Quayside Lock-up")
    owner = MembershipFactory(garage=garage, role="owner", person__name="Ines", works=True)
    for weekday in range(7):
        MemberHoursFactory(member=owner, weekday=weekday, from_minute=480, until_minute=1320)
    return Vehicle.objects.create(
        garage=garage, name="Heron", wheelbase_um=2_575_000, track_front_um=1_475_000, track_rear_um=1_480_000
    )


def weigh(page, base, car, weights):
    page.goto(f"{base}/cars/{car.pk}/readings/corner_weights/")
    page.get_by_role("link", name="Measure", exact=True).click()
    for label, weight in zip(("Front left", "Front right", "Rear left", "Rear right"), weights, strict=True):
        page.get_by_label(label).fill(weight)
    page.get_by_label("Instrument").fill("four pads")
    page.get_by_label("Fuel aboard").fill("20")
    page.get_by_label("Driver", exact=False).first.select_option(label="driver aboard")
    page.get_by_label("Front tyres at").fill("1,9")
    page.get_by_label("Rear tyres at").fill("1,8")
    page.get_by_label("Floor").select_option(label="levelled")
    page.get_by_label("Anti-roll bars").select_option(label="unhooked")
    page.get_by_role("button", name="Save").click()
    page.wait_for_url(re.compile(r"/readings/corner_weights/$"))


def answer(page, label):
    unfold(page)
    return page.locator("#worked .answers div").filter(has_text=label).locator("dd").first


def keep(page, car):
    page.get_by_role("button", name=f"Keep on {car.name}").click()
    page.wait_for_url(re.compile(r"/cars/\d+/sums/$"))


def do(page, base, car, title, kinds, systems):
    """A job written down, begun and finished."""
    owner = car.garage.memberships.get()
    job = jobs.add(car, by=owner, at=clock.now(), title=title, work=(20, 30, 60), kinds=kinds, systems=systems)
    page.goto(f"{base}/jobs/{job.pk}/")
    page.get_by_role("button", name="Start").first.click()
    page.locator("main").get_by_text("in hand").first.wait_for()
    finish(page)
    page.get_by_role("button", name=re.compile("^Finish")).wait_for(state="detached")


def test_weights_measured_perches_turned_weighed_again_and_void_after_new_springs(car, sign_in, live_server):
    base = live_server.url
    page = sign_in("Ines")
    weigh(page, base, car, BEFORE)
    unfold(page)
    page.get_by_role("link", name="Perch turns").click()
    assert page.get_by_label("Front left", exact=True).input_value() == "312.5 kg"
    assert page.get_by_label("Wheelbase").input_value() == "2575 mm"
    page.get_by_label("Cross wanted, front right and rear left").fill("50")
    page.get_by_label("Wheel rate, front").fill("35")
    page.get_by_label("Wheel rate, rear").fill("30")
    page.get_by_label("Thread pitch of the perch").fill("2")
    page.locator("#worked").get_by_text("Front left perch").first.wait_for()
    assert "turns up" in answer(page, "Front left perch, turns").inner_text()
    keep(page, car)

    weigh(page, base, car, AFTER)
    page.goto(f"{base}/sums/corner-weights/?car={car.pk}")
    assert answer(page, "Cross, front right and rear left").inner_text().startswith("50")
    keep(page, car)
    page.get_by_text("Corner weights").first.wait_for()
    assert page.locator("main").get_by_text("Void:").count() == 0

    do(page, base, car, "Softer springs", ["spring_change"], ["suspension"])
    page.goto(f"{base}/cars/{car.pk}/sums/")
    unfold(page)
    page.locator("main").get_by_text("Void: “Softer springs” was finished").first.wait_for()
    page.goto(f"{base}/sums/perch-turns/?car={car.pk}")
    assert page.get_by_label("Wheel rate, front").input_value() == ""
    page.get_by_text("Wheel rate, front, 35 N/mm, no longer holds").first.wait_for()


def test_an_arm_is_shortened_on_the_bench_and_the_lock_check_asks_for_that(car, sign_in, live_server):
    base = live_server.url
    page = sign_in("Ines")
    owner = car.garage.memberships.get()
    check = jobs.add(
        car,
        by=owner,
        at=clock.now(),
        title="Lock check",
        work=(20, 30, 60),
        systems=["steering"],
        measures=["lock_angles", "toggle_check"],
    )
    hold_points.add(check, "Full lock both ways, by hand")
    page.goto(f"{base}/jobs/{check.pk}/")
    unfold(page)
    page.get_by_role("link", name="Steering changed, side by side").click()
    for label, figure in {
        "Between the king-pin axes": "1400",
        "Steering arm, king-pin axis to joint": "125",
        "Arm's tip points inboard by": "8",
        "Between the inner joints": "640",
        "Rack from the king-pin axes": "100",
        "Rack travel each way": "65",
        "Rack travel a turn of the wheel": "50",
    }.items():
        page.get_by_label(label).first.fill(figure)
    page.get_by_label("Steering arm", exact=False).last.fill("95")
    page.locator("#worked").get_by_text("Margin to over centre").first.wait_for()
    margin = answer(page, "Margin to over centre").inner_text()
    lock = answer(page, "Left lock, inner wheel").inner_text()
    page.locator("#worked .stop").get_by_text("from over centre is little").wait_for()
    keep(page, car)

    do(page, base, car, "Shorter arms", ["steering_arm"], ["steering"])
    page.goto(f"{base}/jobs/{check.pk}/")
    asked = page.locator("#hold-points")
    asked.get_by_text("Hold what you find against").wait_for()
    assert margin in asked.inner_text()
    assert lock in asked.inner_text()
