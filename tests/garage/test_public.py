"""Where links and codes lead: as it is set, else where the page was opened; and what reaches no other phone."""

import pytest
from django.test import RequestFactory

from garage.public import NOT_SET, asked_by, only_here, public

PHONES = "https://garage.example.org"


@pytest.fixture
def opened_at(settings):
    settings.ALLOWED_HOSTS = ["*"]
    tokens = []

    def ask(host):
        tokens.append(asked_by.set(RequestFactory().get("/", headers={"Host": host})))

    yield ask
    for token in reversed(tokens):
        asked_by.reset(token)


@pytest.mark.parametrize(
    ("known", "host", "leads"),
    [
        (PHONES, "192.0.2.7:8711", PHONES),
        ("", "192.0.2.7:8711", "http://192.0.2.7:8711"),
        ("http://127.0.0.1:8000", "192.0.2.7:8711", "http://192.0.2.7:8711"),
        ("http://0.0.0.0:8000", "192.0.2.7:8000", "http://192.0.2.7:8000"),
        ("http://127.0.0.1:8000", "127.0.0.1:8711", "http://127.0.0.1:8711"),
    ],
)
def test_what_is_set_counts_unless_it_leads_nowhere(settings, opened_at, known, host, leads):
    settings.PUBLIC_URL = known
    opened_at(host)
    assert public("/visit/x/") == f"{leads}/visit/x/"


@pytest.mark.parametrize(("known", "leads"), [("", NOT_SET), (PHONES, PHONES)])
def test_a_command_has_what_is_set(settings, known, leads):
    settings.PUBLIC_URL = known
    assert public("/") == f"{leads}/"


@pytest.mark.parametrize(
    ("address", "here"),
    [
        ("http://127.0.0.1:8000", True),
        ("http://127.9.9.9", True),
        ("http://localhost:8711/visit/x/", True),
        ("http://shed.localhost", True),
        ("http://[::1]:8000", True),
        ("http://0.0.0.0:8000", True),
        ("http://192.0.2.7:8000", False),
        ("https://garage.example.org", False),
        ("http://localhost.example.org", False),
    ],
)
def test_what_leads_to_this_machine_alone(address, here):
    assert only_here(address) is here


@pytest.mark.parametrize(("host", "scan"), [("192.0.2.7:8711", True), ("localhost:8711", False)])
def test_a_link_that_no_phone_reaches_says_so_and_what_to_set(owner, now, settings, host, scan):
    settings.PUBLIC_URL, settings.ALLOWED_HOSTS = "", ["*"]
    page = owner.press("/visits/add/", {"member": "", "days": "14"}, headers={"Host": host}).content.decode()
    assert f"http://{host}/visit/" in page
    assert ("Scan it with another phone." in page) is scan
    assert ("No other phone reaches this address" in page) is not scan
    assert ("PUBLIC_URL" in page) is not scan
