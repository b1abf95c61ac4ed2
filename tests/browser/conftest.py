"""A real browser on a real server: Debian's Chromium, phone and desktop."""

import os
from contextlib import ExitStack
from pathlib import Path

import pytest
from playwright.sync_api import sync_playwright

from tests.factories import MembershipFactory

# Playwright keeps an event loop in this thread; Django must not mistake that for async code.
os.environ["DJANGO_ALLOW_ASYNC_UNSAFE"] = "true"

CHROMIUM = Path(os.environ.get("CHROMIUM", "/usr/bin/chromium"))
FLAGS = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
SIZES = {"phone": {"width": 390, "height": 844}, "desktop": {"width": 1280, "height": 900}}


def pytest_itemcollected(item):
    item.add_marker(pytest.mark.browser)
    item.add_marker(pytest.mark.django_db(transaction=True))
    if not CHROMIUM.exists():
        if os.environ.get("STRICT_TESTS"):
            raise pytest.UsageError(f"{CHROMIUM} is missing: browser tests may not skip.")
        item.add_marker(pytest.mark.skip(reason=f"no browser at {CHROMIUM}"))


@pytest.fixture(scope="session")
def playwright():
    with sync_playwright() as running:
        yield running


@pytest.fixture(scope="package")
def chromium(playwright):
    browser = playwright.chromium.launch(executable_path=str(CHROMIUM), args=FLAGS)
    yield browser
    browser.close()


@pytest.fixture
def served(settings, monkeypatch):
    """Pages rest on what is remembered, as on a server: for tests whose rows are written by pages alone."""
    settings.REMEMBERS = True
    monkeypatch.setattr("garage.remembered._notes", {})


@pytest.fixture
def crew(db):
    """Three people of one garage, its owner first."""
    owner = MembershipFactory(role="owner", person__name="Ines")
    return [owner, *(MembershipFactory(garage=owner.garage, person__name=name) for name in ("Tove", "Brann"))]


@pytest.fixture(params=list(SIZES))
def size(request):
    return request.param


@pytest.fixture
def browser_page(chromium, size):
    """With an empty profile of its own; the test fails on any script error."""
    with chromium.new_context(viewport=SIZES[size], has_touch=size == "phone") as context:
        context.set_default_timeout(15_000)
        page = context.new_page()
        wrong = []
        page.on("pageerror", lambda error: wrong.append(str(error)))
        yield page
    assert wrong == []


@pytest.fixture
def guest_page(chromium):
    """A page on the phone of somebody else: each call is another one."""
    with ExitStack() as phones:

        def guest_page():
            phone = phones.enter_context(chromium.new_context(viewport=SIZES["phone"]))
            phone.set_default_timeout(20_000)
            return phone.new_page()

        yield guest_page


# What a page looks like in the dark differs in its colours alone.
RULES = {
    "light": {"type": "tag", "values": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]},
    "dark": {"type": "rule", "values": ["color-contrast", "link-in-text-block"]},
}


def broken_rules(page):
    """Of those on accessibility, in light and in dark, each with the first thing on the page that breaks it."""
    from axe_playwright_python.base import AXE_SCRIPT

    page.evaluate(AXE_SCRIPT)
    broken = []
    for scheme, rules in RULES.items():
        page.emulate_media(color_scheme=scheme)
        found = page.evaluate("told => axe.run(told)", {"runOnly": rules, "resultTypes": ["violations"]})
        broken += [f"{scheme}: {rule['id']} {rule['nodes'][0]['target']}" for rule in found["violations"]]
    return broken


def unfold(page):
    """Everything that the page has folded."""
    page.locator("details").evaluate_all("all => all.forEach(one => { one.open = true; })")


@pytest.fixture
def sign_in(live_server, browser_page, settings):
    """Sign in by the link that the command line prints, and return the page."""
    from io import StringIO

    from django.core.management import call_command

    settings.PUBLIC_URL = live_server.url

    def enter(name: str):
        out = StringIO()
        call_command("sign_in_link", name, stdout=out)
        browser_page.goto(out.getvalue().split()[-1])
        browser_page.get_by_role("button", name="Sign in").click()
        browser_page.wait_for_url(lambda url: "/enter/" not in url)
        return browser_page

    return enter
