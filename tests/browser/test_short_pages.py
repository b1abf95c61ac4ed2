"""Pages as they open on a phone: three screens at most, what is folded counted, and whole on paper."""

from datetime import timedelta
from io import StringIO

import pytest
from django.core.management import call_command
from django.utils import timezone

from builds.bench.catalogue import SUMS
from builds.demo.actions.garage import load_demo
from builds.recipes.actions import put_several
from builds.recipes.facts import known_recipes
from builds.work.models.job import Job
from garage import clock

MANY_JOBS = 71
SCREENS = 3
WORST = (0, 3)  # Mondays the plan is longest, Thursdays Today: measured on all seven days
FOLDED = "main details:not([open]) > ol > li, main details:not([open]) > ul > li"
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
    "/events/{event}/",
    "/shelf/",
    "/recipes/",
    "/sums/",
    "/cars/{car}/sums/",
    *(f"/sums/{slug}/" for slug in SUMS),
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
def paths(demo):
    car = demo.vehicles.first()
    rows = {"car": car.pk, "job": car.jobs.first().pk, "event": demo.events.first().pk}
    return [path.format(**rows) for path in PAGES]


@pytest.mark.once
@pytest.mark.parametrize("size", ["phone"])
@pytest.mark.parametrize("day", WORST, indirect=True)
def test_pages_as_they_open(paths, sign_in, live_server):
    """One garage is made for all that is asked of them: loading it takes longer than the asking."""
    page, at = sign_in("Ines"), live_server.url
    no_page_is_longer_than_three_screens(page, [at + path for path in paths])
    the_next_job_of_a_car_is_within_the_first_screen(page, at + paths[3])
    what_is_folded_is_whole_on_paper(page, [at + path for path in ("/plan/", paths[3], "/sums/")])
    answers_of_a_sum_that_are_folded_are_whole_on_paper(page, at + "/sums/steering-linkage/")
    the_strip_fits_any_screen_and_opens_a_day(page, at + "/plan/")


def no_page_is_longer_than_three_screens(page, paths):
    tall = page.viewport_size["height"]
    heights = {}
    for path in paths:
        opened(page, path)
        heights[path] = page.evaluate("document.documentElement.scrollHeight")
    assert {path: height for path, height in heights.items() if height > SCREENS * tall} == {}


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
