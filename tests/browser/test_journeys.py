"""Journeys in a real browser, phone and desktop: from an empty garage to a printed sheet."""

import re
import sqlite3
from contextlib import closing
from datetime import datetime, timedelta
from io import StringIO

import pytest
from django.core.management import call_command
from django.db import connection

from builds.demo.actions.garage import load_demo
from garage import clock
from garage.models import Garage, Person
from tests.browser.conftest import broken_rules
from tests.browser.taps import finish

# The browser adds nothing that a database changes: the rooms test what is pressed here on both.
pytestmark = pytest.mark.once


def fill_event(page, days=9):
    start = datetime.now() + timedelta(days=days)
    page.get_by_label("Name").fill("Saltmarsh Hill Climb")
    page.get_by_label("Gates open").fill(f"{start:%Y-%m-%dT07:30}")
    page.get_by_label("Ends").fill(f"{start:%Y-%m-%dT18:00}")
    page.get_by_role("button", name="Save").click()


def test_from_an_empty_garage_to_the_sheet(db, sign_in, live_server):
    Person.objects.create_user("Ines")
    page = sign_in("Ines")
    page.get_by_role("button", name="Open the garage").click()
    page.wait_for_url(live_server.url + "/")

    page.goto(live_server.url + "/cars/add/")
    page.get_by_label("Name").fill("Heron")
    page.get_by_role("button", name="Hang it on the board").click()
    page.get_by_role("heading", name="Heron", level=1).wait_for()

    page.goto(live_server.url + "/events/add/")
    fill_event(page)
    page.get_by_role("link", name="Enter a car").click()
    page.get_by_label("Car").select_option(label="Heron")
    page.get_by_role("button", name="Enter it").click()
    page.get_by_role("heading", name="Saltmarsh Hill Climb", level=1).wait_for()

    member = Person.objects.get().memberships.get()
    page.goto(f"{live_server.url}/people/{member.pk}/hours/")
    for day in ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"):
        page.get_by_label(day).fill("8:00-22:00")
    page.get_by_role("button", name=re.compile("Save|week", re.I)).first.click()
    page.wait_for_url(re.compile(r"/people/\d+/$"))

    page.goto(live_server.url + "/recipes/radiator-fan-shroud/put/")
    page.get_by_label("Car").select_option(label="Heron")
    page.get_by_role("button", name="Put it on").first.click()
    page.wait_for_url(re.compile(r"/cars/\d+/"))

    page.goto(live_server.url + "/plan/")
    page.get_by_text("Try another plan").click()
    page.get_by_role("button", name="Look for a better plan").click()
    page.locator("main").get_by_text(re.compile("By the plan (its work is )?ready")).first.wait_for()

    page.goto(live_server.url + "/")
    page.get_by_role("button", name="Start").first.click()
    finish(page)
    page.get_by_text("Since yesterday").wait_for()

    page.goto(live_server.url + "/events/")
    page.get_by_role("link", name="Saltmarsh Hill Climb").first.click()
    the_sheet_is_a_pdf(page, live_server)


def the_sheet_is_a_pdf(page, live_server):
    address = page.get_by_role("link", name=re.compile("sheet")).first.get_attribute("href")
    answer = page.request.get(live_server.url + address)
    assert answer.headers["content-type"] == "application/pdf"
    assert answer.body().startswith(b"%PDF")


@pytest.fixture(scope="module")
def kept_demo(tmp_path_factory):
    return tmp_path_factory.mktemp("demo") / "demo.sqlite3"


@pytest.fixture
def demo(db, kept_demo):
    """Loaded and planned once: whoever comes later finds it as it was then."""
    if kept_demo.exists():
        with closing(sqlite3.connect(kept_demo)) as file:
            file.backup(connection.connection)
        return Garage.objects.get()
    garage = load_demo(at=clock.now())
    call_command("plan", stdout=StringIO())
    with connection.cursor() as cursor:
        cursor.execute("VACUUM INTO %s", [str(kept_demo)])
    return garage


def test_a_job_is_started_and_finished_from_today(demo, sign_in, live_server):
    page = sign_in("Ines")
    page.goto(live_server.url + "/")
    # What a car is owed is over once its part is back on.
    slots = page.locator(".slot", has=page.get_by_role("button", name="Start"))
    first = slots.filter(has_not_text="Owed:").first
    title = first.locator(".tag-title").inner_text()
    first.get_by_role("button", name="Start").click()
    page.locator("#status").get_by_text(title).wait_for()
    finish(page)
    page.locator("#status").get_by_text(title).wait_for()


def test_a_reading_taken_in_the_shop_moves_the_clock_of_a_cure(demo, sign_in, live_server):
    page = sign_in("Tove")
    page.goto(live_server.url + "/shop/")
    ready = page.locator(".ready").first.inner_text()
    page.get_by_label("The thermometer says").fill("3")
    page.get_by_role("button", name="Save").click()
    page.locator("#status").get_by_text("Written down").wait_for()
    assert page.locator(".big").inner_text() == "3 °C"
    assert page.locator(".ready").first.inner_text() != ready


PAGES = [
    "/",
    "/plan/",
    "/cars/",
    "/plan/?day={today}",
    "/cars/{car}/",
    "/cars/{car}/?tab=gear",
    "/cars/{car}/?tab=papers",
    "/cars/{car}/?tab=log",
    "/cars/{car}/readings/",
    "/cars/{car}/readings/camber/",
    "/cars/{car}/joints/",
    "/cars/{car}/joints/add/",
    "/jobs/{job}/",
    "/events/{event}/",
    "/people/",
    "/shelf/",
    "/recipes/",
    "/recipes/steering-arm-rework/",
    "/stations/",
    "/shop/",
    "/shop/days/",
    "/shop/heat/",
    "/products/epoxy-primer/",
    "/products/epoxy-primer/edit/",
    "/jobs/{job}/needs/add/",
    "/cars/{car}/jobs/add/",
]


@pytest.mark.usefixtures("served")
def test_pages_fit_the_screen_and_the_accessibility_rules(demo, sign_in, live_server):
    page = sign_in("Ines")
    car = demo.vehicles.first()
    rows = {"car": car.pk, "job": car.jobs.last().pk, "event": demo.events.first().pk, "today": clock.now().date()}
    wrong = []
    for path in PAGES:
        page.goto(live_server.url + path.format(**rows))
        if page.evaluate("document.documentElement.scrollWidth > window.innerWidth"):
            wrong.append(f"{path}: scrolls sideways")
        wrong += [f"{path}, {rule}" for rule in broken_rules(page)]
    assert wrong == []
