"""A new owner's journey: an empty garage, three cars, eleven recipes on one of them, and a plan a mechanic follows."""

import re
from datetime import timedelta

import pytest
from playwright.sync_api import expect

from builds.plan.facts.stored import shown
from builds.readings.engine.car_job import CarJob, ChainStep
from builds.steps.actions import steps
from builds.work.models.job import Job
from builds.work.models.link import StationHold
from garage.models import Entry, Garage, Membership, Person
from tests.builds.recipes.test_recipes_meet import ELEVEN, RECIPES
from tests.season.invariants import nothing_planned_in_pieces
from tests.season.looks import Look, wall_plan, wants_wheels

# The browser adds nothing that a database changes: the rooms test what is pressed here on both.
pytestmark = [pytest.mark.once, pytest.mark.parametrize("size", ["phone"], indirect=True)]
EVENINGS = dict.fromkeys(("Monday", "Tuesday", "Wednesday", "Thursday", "Friday"), "17:00-22:00")
WEEK = {**EVENINGS, "Saturday": "9:00-18:00", "Sunday": "10:00-17:00"}
WHEEL_TORQUE = re.compile("torque the wheels|wheels on.*torque", re.IGNORECASE)


@pytest.fixture
def page(db, clock, sign_in, live_server, monkeypatch):
    """Of Ines, who has nothing yet; the odds of her plan are told after a second."""
    monkeypatch.setattr("builds.plan.actions.odds.SECONDS", 1.0)
    Person.objects.create_user("Ines")
    page = sign_in("Ines")
    page.get_by_role("button", name="Open the garage").click()
    page.wait_for_url(live_server.url + "/")
    return page


def test_a_new_garage_stands_where_the_browser_says(db, sign_in, live_server):
    Person.objects.create_user("Ines")
    page = sign_in("Ines")
    page.context.new_cdp_session(page).send("Emulation.setTimezoneOverride", {"timezoneId": "Pacific/Auckland"})
    page.reload()
    assert page.get_by_label("Time zone").input_value() == "Pacific/Auckland"
    page.get_by_role("button", name="Open the garage").click()
    page.wait_for_url(live_server.url + "/")
    assert Garage.objects.get().time_zone == "Pacific/Auckland"


def hang_up(page, base, name):
    page.goto(f"{base}/cars/add/")
    page.get_by_label("Name").fill(name)
    page.get_by_role("button", name="Hang it on the board").click()
    page.get_by_role("heading", name=name, level=1).wait_for()


def bring_in_tove(page, base):
    page.goto(f"{base}/people/add/")
    page.get_by_label("Name", exact=True).fill("Tove")
    for skill in ("May sign", "Fitting", "Welding", "Paint", "Wiring", "Alignment", "Brakes"):
        page.get_by_label(skill).check()
    page.get_by_role("button", name="Add", exact=True).click()
    page.get_by_role("heading", name="Tove", level=1).wait_for()


def say_hours(page, base, member):
    page.goto(f"{base}/people/{member.pk}/hours/")
    for day, hours in WEEK.items():
        page.get_by_label(day).fill(hours)
    page.get_by_role("button", name="Save").click()
    page.wait_for_url(re.compile(r"/people/\d+/$"))


def enter(page, base, car, gates):
    page.goto(f"{base}/events/add/")
    page.get_by_label("Name").fill("Saltmarsh Hill Climb")
    page.get_by_label("Gates open").fill(f"{gates:%Y-%m-%dT%H:%M}")
    page.get_by_label("Ends").fill(f"{gates + timedelta(hours=9):%Y-%m-%dT%H:%M}")
    page.get_by_role("button", name="Save").click()
    page.get_by_role("link", name="Enter a car").click()
    page.get_by_label("Car").select_option(label=car)
    page.get_by_role("button", name="Enter it").click()
    page.get_by_role("heading", name="Saltmarsh Hill Climb", level=1).wait_for()


def put_eleven_on(page, base, car):
    page.goto(f"{base}/recipes/several/")
    page.get_by_label("Car", exact=True).select_option(label=car)
    for key in ELEVEN:
        page.get_by_label(RECIPES[key].title, exact=True).check()
    page.get_by_role("button", name="Put them on").click()
    page.wait_for_url(re.compile(r"/cars/\d+/$"))
    page.locator("#status").get_by_text("are new on Heron").wait_for()


def test_eleven_recipes_become_one_plan_that_a_mechanic_would_follow(page, live_server, clock):
    base = live_server.url
    for name in ("Heron", "Badger", "Moth"):
        hang_up(page, base, name)
    bring_in_tove(page, base)
    for member in Membership.objects.all():
        say_hours(page, base, member)
    enter(page, base, "Heron", clock.at + timedelta(days=31))
    put_eleven_on(page, base, "Heron")

    page.goto(f"{base}/plan/")
    titles = page.locator(".work-title a")
    told = {(link.get_attribute("href"), link.text_content().strip()) for link in titles.all()}
    torqued = {href for href, title in told if WHEEL_TORQUE.search(title)}
    assert len(torqued) == 1, sorted(told)
    one = Job.objects.get(pk=int(torqued.pop().rstrip("/").rpartition("/")[2]))
    stands = {job.pk: CarJob(tuple(job.kinds), tuple(job.measures)).step for job in Job.objects.all()}
    assert stands[one.pk] == ChainStep.TORQUED
    wall = wall_plan(shown(Garage.objects.get()))
    assert wall.pieces and wall.on_wheels and not wall.answer.unplaced
    assert list(nothing_planned_in_pieces(Look(clock.at, wall=wall))) == []

    odds_and_plan_say_the_same(page, base)
    nothing_is_measured_while_stripped(page, base, clock)


def odds_and_plan_say_the_same(page, base):
    page.goto(f"{base}/plan/odds/")
    said = page.locator("#odds li p:not([class])").first.inner_text()
    assert re.match("Makes it|Touch and go|Will not make it", said), said
    assert "times out of" in said
    entry = Entry.objects.get()
    for path in ("/", "/plan/", f"/cars/{entry.vehicle_id}/", f"/events/{entry.event_id}/"):
        page.goto(base + path)
        expect(page.locator("main").get_by_text(said).first).to_be_visible()


def nothing_is_measured_while_stripped(page, base, clock):
    """Work is begun as Today offers it, until the car is in pieces: then no measuring job can be started."""
    for _ in range(8):
        if StationHold.objects.stripped().exists():
            break
        page.goto(base + "/")
        page.get_by_role("button", name="Start").first.click()
        expect(page.locator("#status")).to_contain_text("is in hand", timeout=15_000)
        if not StationHold.objects.stripped().exists():
            for job in Job.objects.in_hand():
                steps.finish(job, by=job.made_by, at=clock.at)
    ends = set(StationHold.objects.stripped().values_list("first", "last").first())
    waiting = [job for job in Job.objects.open() if wants_wheels(job) and job.pk not in ends]
    assert waiting
    for job in waiting[:3]:
        page.goto(f"{base}/jobs/{job.pk}/")
        page.get_by_role("heading", level=1).wait_for()
        assert page.get_by_role("button", name="Start").count() == 0, job
