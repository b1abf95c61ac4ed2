"""A late car in a real browser: why, what would do, one tap, and it is on time."""

import re
from datetime import timedelta

import pytest

from garage import clock
from tests.browser.conftest import broken_rules, unfold
from tests.builds.plan.plan_kit import enter, evenings, job, planned
from tests.factories import GarageFactory, MembershipFactory, VehicleFactory

# The browser adds nothing that a database changes: the rooms test what is pressed here on both.
pytestmark = [pytest.mark.once, pytest.mark.parametrize("size", ["desktop"], indirect=True)]


@pytest.fixture
def late(db):
    """Six hours of work and one person whose next hours are a week away."""
    garage = GarageFactory(name="Quayside Lock-up")
    ines = MembershipFactory(garage=garage, role="owner", person__name="Ines")
    evenings(ines, days=[(clock.now().weekday() + 6) % 7])
    car = VehicleFactory(garage=garage, name="Heron")

    class Cast:
        owner = ines

    job(car, Cast, "Fit the fan", likely_minutes=60)
    entry = enter(car, clock.now() + timedelta(days=4))
    planned(garage, clock.now())
    return entry


def fits(page):
    return not page.evaluate("document.documentElement.scrollWidth > window.innerWidth")


def test_a_late_car_reads_why_takes_what_is_offered_and_is_on_time(late, sign_in, live_server):
    page = sign_in("Ines")
    page.goto(live_server.url + "/plan/")
    page.get_by_text("By the plan late").first.click()
    page.get_by_role("link", name=re.compile("What would it take")).click()
    page.get_by_role("heading", name="What would it take?", level=1).wait_for()
    main = page.locator("main")
    main.get_by_text(re.compile("Will not make it: ")).first.wait_for()
    main.get_by_text("Ines is not in before").wait_for()
    main.get_by_text("even if nobody had anything else to do").wait_for()
    offer = page.locator("#remedies li", has_text=re.compile("Ines comes .* as well")).first
    offer.get_by_text("Heron is then ready").wait_for()
    offer.scroll_into_view_if_needed()
    offer.get_by_text(" out of 400").or_(offer.get_by_text(" out of 10")).wait_for()
    assert fits(page)
    offer.get_by_role("button", name="Do it").click()
    main.get_by_text(re.compile(r"^\s*By the plan ready")).wait_for()
    page.locator("#status").get_by_text("To undo: take that day out").wait_for()
    page.goto(live_server.url + "/plan/")
    page.get_by_text("By the plan ready").first.wait_for()
    assert page.get_by_role("link", name=re.compile("What would it take")).count() == 0


def test_tried_in_a_copy_compared_and_kept(late, sign_in, live_server):
    page = sign_in("Ines")
    page.goto(live_server.url + "/plan/")
    unfold(page)
    page.get_by_role("link", name="What if?").click()
    page.get_by_label("Who").select_option(label="Ines")
    page.get_by_label("comes as well").check()
    page.get_by_label(re.compile(r"^\s*On")).fill(f"{clock.now() + timedelta(days=2):%Y-%m-%d}")
    page.get_by_label(re.compile(r"^\s*Hours")).fill("9:00-12:00")
    page.get_by_role("button", name="Try it").click()
    page.get_by_text(re.compile("By the plan ready .* in time")).wait_for()
    page.get_by_text(re.compile("By the plan ready .* too late")).wait_for()
    assert fits(page)
    page.get_by_role("button", name="Keep it").click()
    page.get_by_text("By the plan ready").first.wait_for()


def test_the_rounds_go_on_by_themselves_until_all_is_tried(late, sign_in, live_server, monkeypatch):
    monkeypatch.setattr("builds.remedies.actions.hunts.AT_ONCE", 0)
    monkeypatch.setattr("builds.remedies.actions.hunts.A_ROUND", 0)
    page = sign_in("Ines")
    page.goto(f"{live_server.url}/entries/{late.pk}/remedies/")
    page.get_by_text("changes were tried.").wait_for()
    assert page.locator("#remedies").get_by_role("button", name="Do it").count() > 1


def test_the_pages_keep_to_the_accessibility_rules(late, sign_in, live_server):
    page = sign_in("Ines")
    for path in (f"/entries/{late.pk}/remedies/", "/plan/what-if/"):
        page.goto(live_server.url + path)
        assert broken_rules(page) == [], path
        assert fits(page), path
