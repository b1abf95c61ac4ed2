"""A journey: toe set, an arm replaced, toe void, one job to measure again planned, measured."""

import re

import pytest

from builds.steps.actions import jobs
from builds.work.models.job import Job
from garage import clock
from garage.models import Vehicle
from tests.browser.conftest import unfold
from tests.factories import GarageFactory, MemberHoursFactory, MembershipFactory

# The browser adds nothing that a database changes: the rooms test what is pressed here on both.
pytestmark = [pytest.mark.once, pytest.mark.parametrize("size", ["desktop"], indirect=True)]


@pytest.fixture
def car(db):
    garage = GarageFactory(name="Quayside Lock-up")
    owner = MembershipFactory(garage=garage, role="owner", person__name="Ines", works=True)
    for weekday in range(7):
        MemberHoursFactory(member=owner, weekday=weekday, from_minute=480, until_minute=1320)
    return Vehicle.objects.create(garage=garage, name="Heron")


def measure(page, base, car, left, right):
    page.goto(f"{base}/cars/{car.pk}/readings/toe_front/")
    page.get_by_role("link", name="Measure", exact=True).click()
    page.get_by_label("Front left").fill(left)
    page.get_by_label("Front right").fill(right)
    page.get_by_label("Instrument").fill("string box")
    page.get_by_label("Fuel aboard").fill("20")
    page.get_by_label("Driver", exact=False).first.select_option(label="driver aboard")
    page.get_by_label("Front tyres at").fill("1,9")
    page.get_by_label("Rear tyres at").fill("1,8")
    page.get_by_label("Floor").select_option(label="levelled")
    page.get_by_role("button", name="Save").click()
    page.wait_for_url(re.compile(r"/readings/toe_front/$"))


def test_toe_void_by_an_arm_is_measured_once_more(car, sign_in, live_server):
    base = live_server.url
    page = sign_in("Ines")
    page.goto(f"{base}/cars/{car.pk}/readings/required/")
    page.get_by_label("Front toe").check()
    page.get_by_role("button", name="Save").click()
    page.locator("main").get_by_text("never taken").first.wait_for()
    measure(page, base, car, "0,05", "0,05")
    page.goto(f"{base}/cars/{car.pk}/")
    assert page.locator("main").get_by_text("Not taken yet: Front toe").count() == 0

    owner = car.garage.memberships.get()
    for title, kinds in (("Replace the arm", ["steering_arm"]), ("New tie rod", ["jam_nut"])):
        jobs.add(car, by=owner, at=clock.now(), title=title, work=(20, 30, 60), kinds=kinds)
    arm = Job.objects.get(title="Replace the arm")
    page.goto(f"{base}/jobs/{arm.pk}/")
    unfold(page)
    page.locator("main").get_by_text("This job voids:").wait_for()
    page.get_by_role("button", name="Start").first.click()
    page.get_by_role("button", name=re.compile("^Finish")).first.click()
    page.get_by_role("button", name=re.compile("^Finish")).wait_for(state="detached")

    page.goto(f"{base}/cars/{car.pk}/")
    unfold(page)
    page.locator("main").get_by_text("Void: Front toe.").first.wait_for()
    page.goto(f"{base}/cars/{car.pk}/readings/")
    unfold(page)
    page.locator("main").get_by_text("“Replace the arm” was finished").first.wait_for()

    page.goto(f"{base}/plan/")
    page.get_by_text("Try another plan").click()
    page.get_by_role("button", name="Look for a better plan").click()
    titles = page.locator(".work-title")
    titles.filter(has_text="Measure again: front toe").first.wait_for(state="attached")
    assert titles.filter(has_text="Measure again").count() == 1
    said = titles.all_text_contents()
    order = [next(n for n, each in enumerate(said) if words in each) for words in (
        "New tie rod", "Measure again")]  # fmt: skip
    assert order == sorted(order)

    rod = Job.objects.get(title="New tie rod")
    page.goto(f"{base}/jobs/{rod.pk}/")
    page.get_by_role("button", name="Done already").click()
    page.get_by_role("button", name="Done already").wait_for(state="detached")
    measure(page, base, car, "0,04", "0,06")
    assert not Job.objects.taking_again().open().exists()
    page.goto(f"{base}/cars/{car.pk}/")
    page.get_by_role("heading", name="Heron", level=1).wait_for()
    assert page.locator("main").get_by_text("Void: Front toe").count() == 0
