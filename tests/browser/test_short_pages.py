"""Pages as they open on a phone: three screens at most, what is folded counted, and whole on paper."""

from datetime import timedelta
from io import StringIO

import pytest
from django.core.management import call_command
from django.utils import timezone

from builds.bench.catalogue import SUMS
from builds.demo.actions.garage import load_demo
from builds.recipes.actions.putting import put_several
from builds.recipes.facts import known_recipes
from builds.scrutineering.models.check import CheckList
from builds.work.models.job import Job
from garage import clock
from garage.actions import shares
from tests.browser.stranger import strangers_garage

pytestmark = [pytest.mark.once, pytest.mark.usefixtures("served")]
MANY_JOBS = 71
SCREENS = 3
WORST = (0, 3)  # Mondays the plan is longest, Thursdays Today: measured on all seven days
FOLDED = "main details:not([open]) > ol > li, main details:not([open]) > ul > li"
CONTROLS = "main :is(button, .button, .tick-more a, .head-fold, .tabs)"
SEEN = "all => all.filter(one => one.checkVisibility({contentVisibilityAuto: true})).length"
PAGES = [
    "/",
    "/plan/",
    "/cars/",
    "/cars/{car}/",
    "/cars/{car}/?tab=gear",
    "/cars/{car}/?tab=papers",
    "/cars/{car}/?tab=log",
    "/jobs/{job}/",
    "/events/",
    "/cars/{car}/joints/",
    "/cars/{car}/joints/add/",
    "/joints/{joint}/",
    "/cars/{car}/readings/compare/",
    "/events/{event}/",
    "/events/{race}/pack/",
    "/paddock/{event}/",
    "/paddock/{race}/",
    "/entries/{entry}/checks/",
    "/entries/{entry}/checks/many/",
    "/entries/{entry}/remedies/",
    "/share/add/?event={race}",
    "/shelf/",
    "/wants/",
    "/shop/",
    "/recipes/",
    "/cars/{car}/sums/",
]
# The same on every day of the week.
EVERY_DAY = ["/sums/", *(f"/sums/{slug}/" for slug in SUMS)]
MIXED = """New front pads
Bleed the brake lines
Weld the exhaust hanger
Fit cage padding
Check tyre pressures
Mend the wiring behind the dash
New dampers, front
Oil and filter
Mend the door hinge
Polish the headlights
Order stickers
Fit the splitter"""
# Of a stranger's garage, where nothing is measured yet and no limit is written down.
FORMS = [
    "/cars/{car}/readings/",
    "/cars/{car}/readings/many/",
    "/cars/{car}/readings/limits/",
    "/cars/{car}/readings/required/",
    "/cars/{car}/readings/corner_weights/add/",
    "/cars/{car}/jobs/add/",
    "/cars/{car}/jobs/paste/",
    "/jobs/{measuring}/finish/",
    "/jobs/{safety}/finish/",
    "/jobs/{needed}/finish/",
    "/events/{event}/",
    "/shop/",
    "/plan/",
    "/recipes/structural-weld-repair/",
    "/recipes/crash-check/",
]


def comes_to(page, count, folded=FOLDED):
    """Whether so many of the folded lines are seen, as soon as the page is laid out."""
    for _ in range(50):
        if page.locator(folded).evaluate_all(SEEN) == count:
            return True
        page.wait_for_timeout(100)
    return False


def opened(page, path):
    """As it stands once what it asks for by itself has come."""
    page.goto(path)
    if page.locator('[hx-trigger="load"]').count():
        page.wait_for_load_state("networkidle")


@pytest.fixture
def day(request):
    """Of the week, from Monday."""
    return request.param


@pytest.fixture(autouse=True)
def evening(monkeypatch, day):
    """The garage's clock runs on from eight in the evening, when pages hold most: people are in, and cures run."""
    real = timezone.now()
    shift = timedelta(days=(day - real.weekday()) % 7, hours=20 - real.hour, minutes=-real.minute)
    monkeypatch.setattr("garage.clock.now", lambda: timezone.now() + shift)


@pytest.fixture
def demo(db, evening):
    garage = load_demo(at=clock.now())
    car, owner = garage.vehicles.first(), garage.memberships.get(role="owner")
    for known in known_recipes(garage):
        if Job.objects.on(car).count() < MANY_JOBS:
            put_several([known.recipe], car, by=owner, at=clock.now())
    call_command("plan", stdout=StringIO())
    return garage


@pytest.fixture
def paths(demo, day):
    car, entry = demo.vehicles.first(), CheckList.objects.first().entry
    rows = {
        "car": car.pk,
        "job": car.jobs.first().pk,
        "event": demo.events.first().pk,
        "race": entry.event_id,
        "entry": entry.pk,
        "joint": car.joints.first().pk,
    }
    _, link = shares.make(by=demo.memberships.get(role="owner"), at=clock.now(), days=1, event=entry.event)
    alike = EVERY_DAY if day == WORST[0] else []
    return [*(path.format(**rows) for path in PAGES), *alike, f"/shared/{link}/"]


@pytest.mark.parametrize("size", ["phone"])
@pytest.mark.parametrize("day", WORST, indirect=True)
def test_pages_as_they_open(paths, sign_in, live_server):
    """One garage is made for all that is asked of them: loading it takes longer than the asking."""
    page, at = sign_in("Ines"), live_server.url
    assert too_high(page, [at + path for path in paths]) == {}
    the_next_job_of_a_car_is_within_the_first_screen(page, at + paths[3])
    what_is_folded_is_whole_on_paper(page, [at + path for path in ("/plan/", paths[3], "/sums/")])
    answers_of_a_sum_that_are_folded_are_whole_on_paper(page, at + "/sums/steering-linkage/")
    the_strip_fits_any_screen_and_opens_a_day(page, at + "/plan/")


def too_high(page, addresses):
    """Heights of those that are longer than three screens as they open."""
    heights = {}
    for address in addresses:
        opened(page, address)
        heights[address] = page.evaluate("document.documentElement.scrollHeight")
    return {path: height for path, height in heights.items() if height > SCREENS * page.viewport_size["height"]}


@pytest.mark.parametrize("size", ["phone"])
@pytest.mark.parametrize("day", WORST[:1], indirect=True)
def test_no_form_is_longer_than_three_screens_in_a_garage_where_nothing_is_measured(db, sign_in, live_server):
    car = strangers_garage(clock.now()).vehicles.get()
    jobs = {job.title: job.pk for job in car.jobs.all()}
    rows = {
        "car": car.pk,
        "event": car.entries.get().event_id,
        "measuring": jobs["Read the car as it stands, before the work"],
        "safety": jobs["Bleed the brakes"],
        "needed": jobs["Mend the door card"],
    }
    page = sign_in("Rowan")
    assert too_high(page, [live_server.url + path.format(**rows) for path in FORMS]) == {}
    list_looked_at_is_short(page, f"{live_server.url}/cars/{car.pk}/jobs/paste/")
    lines_open_where_something_is_wrong(page, f"{live_server.url}/cars/{car.pk}/readings/many/")


def list_looked_at_is_short(page, address):
    page.goto(address)
    page.locator("textarea").fill("\n".join(f"new part number {number} 1 h" for number in range(11)))
    page.get_by_role("button", name="Look at the list").click()
    page.get_by_role("button", name="Save 11 jobs").wait_for()
    assert not page.locator("textarea").is_visible()
    page.get_by_text("Change the list").click()
    page.locator("textarea").fill(MIXED)
    page.get_by_role("button", name="Look at the list again").click()
    page.get_by_role("button", name="Save the list").wait_for()
    assert page.evaluate("document.documentElement.scrollHeight") <= SCREENS * page.viewport_size["height"]


def lines_open_where_something_is_wrong(page, address):
    page.goto(address)
    lines = page.locator("main .folds > details")
    assert lines.count() > 10 and page.locator("main .folds > details[open]").count() == 0
    height = lines.filter(has_text="Ride height").first
    height.locator("summary").click()
    height.get_by_label("Front left").fill("low")
    page.get_by_role("button", name="Save").click()
    page.locator(".problems").wait_for()
    assert page.locator("main .folds > details[open]").count() == 1 and height.get_by_label("Front left").is_visible()


def the_next_job_of_a_car_is_within_the_first_screen(page, car):
    page.goto(car)
    start = page.locator(".slot button").first.bounding_box()
    bar = page.locator(".menu").bounding_box()
    assert start["y"] + start["height"] <= bar["y"]


def what_is_folded_is_whole_on_paper(page, paths):
    for path in paths:
        page.emulate_media(media="screen")
        opened(page, path)
        assert page.locator(FOLDED).count() > 0
        assert comes_to(page, 0)
        page.emulate_media(media="print")
        assert comes_to(page, page.locator(FOLDED).count())
        assert comes_to(page, 0, CONTROLS), path


def answers_of_a_sum_that_are_folded_are_whole_on_paper(page, path):
    page.emulate_media(media="screen")
    opened(page, path)
    answers = page.locator("#more-answers dd")
    assert answers.count() > 4
    assert not answers.first.is_visible()
    page.emulate_media(media="print")
    assert comes_to(page, answers.count(), "#more-answers dd")


def the_strip_fits_any_screen_and_opens_a_day(page, plan):
    page.emulate_media(media="screen")
    for width in (320, 390, 768, 1280):
        page.set_viewport_size({"width": width, "height": 844})
        page.goto(plan)
        assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth")
        strip = page.locator(".strip").bounding_box()
        marks = page.locator(".strip .block").evaluate_all("all => all.map(one => one.getBoundingClientRect().right)")
        assert marks and max(marks) <= strip["x"] + strip["width"] + 1
    page.locator(".strip-day a").nth(1).click()
    page.locator("#strip").get_by_role("heading", name="alone").wait_for()
