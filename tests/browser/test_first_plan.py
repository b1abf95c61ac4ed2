"""A stranger's first minute: from an empty garage to a plan of his own car with ten jobs, each tap counted."""

import re

import pytest
from playwright.sync_api import expect

from builds.work.models.job import Job
from garage.actions import sign_in as signing_in
from garage.models import Entry, MemberHours
from tests.browser.test_journeys import broken_rules

# The browser adds nothing that a database changes: the rooms test what is pressed here on both.
pytestmark = [pytest.mark.once, pytest.mark.parametrize("size", ["phone"], indirect=True)]
MOST_TAPS, SCREENS = 12, 3
IN_THE_PICKER = 2  # a day is chosen and set in what the phone itself opens over the page
TALLY = 'addEventListener("pointerdown", () => { sessionStorage.taps = 1 + Number(sessionStorage.taps || 0); }, true);'
TEN = """\
New front pads 1:30
Bleed the brakes 45 min
Weld the seat mounts 3h
Fit the seat (2h) after weld the seat mounts
Change the engine oil 40 min
Replace the fuel filter 30 min
Tidy the loom 2h
Fit new rear dampers 3h
Adjust the handbrake 30 min
Wash and polish 1h"""


@pytest.fixture
def stranger(db, clock, sign_in):
    """Where `make run DEMO=no` leads to, its taps counted from there."""
    signing_in.first_person()
    page = sign_in("Owner")
    page.add_init_script(TALLY)
    page.reload()
    return page


def taps(page):
    return page.evaluate("Number(sessionStorage.taps || 0)")


def type_into(page, label, text):
    """What is typed goes where the tap led, and nowhere else."""
    page.get_by_label(label).tap()
    page.keyboard.insert_text(text)


def short(page):
    assert page.evaluate("document.documentElement.scrollHeight") <= SCREENS * page.viewport_size["height"], page.url
    assert not page.evaluate("document.documentElement.scrollWidth > innerWidth"), page.url


def test_a_stranger_has_a_first_plan_of_his_own_car_in_twelve_taps(stranger, live_server, clock):
    page = stranger
    short(page)
    assert broken_rules(page) == []
    type_into(page, "Your name", "Ines")
    type_into(page, "Name of the car", "Heron")
    page.get_by_label("It must have the usual readings").tap()
    type_into(page, "Name of the event", "Saltmarsh Hill Climb")
    page.get_by_label("The car leaves home").tap()
    page.get_by_label("The car leaves home").fill("2027-05-29T06:30")
    page.get_by_role("button", name="Open the garage").tap()

    page.get_by_role("heading", name="A list of jobs for Heron").wait_for()
    expect(page.get_by_role("link", name="Today").first).to_be_visible()
    short(page)
    type_into(page, "One job a line", TEN)
    page.get_by_role("button", name="Look at the list").tap()
    page.get_by_role("button", name="Save 10 jobs").wait_for()
    page.evaluate("scrollBy(0, 300)")
    page.get_by_role("button", name="Save 10 jobs").tap()

    page.wait_for_url(live_server.url + "/plan/")
    expect(page.locator("main").get_by_text(re.compile("By the plan|Makes it")).first).to_be_visible()
    expect(page.get_by_role("heading", name="Plan", level=1)).to_be_in_viewport()  # wherever the list was left
    short(page)
    counted = taps(page)
    assert counted > 8, "the taps of this journey are not counted"
    assert counted + IN_THE_PICKER <= MOST_TAPS
    assert Job.objects.filter(recipe="").count() == len(TEN.splitlines())
    assert (Entry.objects.get().vehicle.name, MemberHours.objects.count()) == ("Heron", 6)


def test_what_is_wrong_keeps_what_was_typed_and_leads_there(stranger, live_server):
    page = stranger
    type_into(page, "Name of the car", "Heron")
    page.get_by_label("Monday to Friday").fill("evenings")
    page.get_by_role("button", name="Open the garage").tap()
    page.locator(".problems").get_by_role("link", name=re.compile("Write hours such as")).wait_for()
    assert page.get_by_label("Name of the car").input_value() == "Heron"
    page.get_by_label("Monday to Friday").fill("1830-2200")
    page.get_by_role("button", name="Open the garage").tap()
    page.get_by_role("heading", name="A list of jobs for Heron").wait_for()
