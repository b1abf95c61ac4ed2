"""A friend, a link in a chat and two phones: Thursday said, a crack found with a photo, seen, shared, answered."""

import re
from datetime import timedelta

import pytest

from builds.needs.models import PartOffer
from garage import clock
from garage.actions.sign_in import OWN_LINK, make_link
from garage.models import DayHours, Membership
from tests.factories import JobFactory, MembershipFactory, NeedFactory, VehicleFactory
from tests.pictures import jpeg

pytestmark = [pytest.mark.once, pytest.mark.parametrize("size", ["phone"], indirect=True)]


@pytest.fixture
def job(db, settings, tmp_path):
    settings.PHOTO_DIR = tmp_path
    owner = MembershipFactory(role="owner", person__name="Ines")
    MembershipFactory(garage=owner.garage, role="helper", person__name="Tove")
    car = VehicleFactory(garage=owner.garage, name="Heron")
    NeedFactory(job=JobFactory(vehicle=car, made_by=owner, title="Fit the hub"), what="front hub")
    return JobFactory(vehicle=car, made_by=owner, title="Bleed the brakes", state="in_hand")


def address_on(page, url):
    """The link that was just made, as it can be copied."""
    page.locator("#link-out").wait_for()
    return url + re.search(r"/(?:visit|shared|feed)/.+", page.locator("#link-out").inner_text().strip())[0]


def test_from_thursday_to_a_link_that_is_gone(job, sign_in, live_server, guest_page):
    url = live_server.url
    page = sign_in("Ines")
    page.goto(f"{url}/visits/add/")
    page.get_by_label("For (optional)").select_option(label="Tove")
    page.get_by_role("button", name="Make the link").click()
    asked = address_on(page, url)

    # The friend, on a phone of his own, without an account.
    friend = guest_page()
    friend.goto(asked)
    thursday = (clock.now() + timedelta(days=2)).date()
    friend.locator(f"input[value='{thursday}']").check()
    friend.get_by_role("button", name="I can come", exact=True).click()
    friend.get_by_text("Said. Thank you.").wait_for()
    assert DayHours.objects.get().day == thursday

    page.goto(f"{url}/")
    page.get_by_role("heading", name="Who can come").wait_for()
    page.get_by_text("in the plan").first.wait_for()

    # He finds a crack; the owner's page says so without being loaded again.
    friend.goto(sign_in_address(url))
    friend.get_by_role("button", name="Sign in").click()
    friend.wait_for_url(lambda to: "/enter/" not in to)
    friend.goto(f"{url}/jobs/{job.pk}/found/")
    friend.get_by_label("What you found").fill("Hairline crack at the lower eye")
    friend.get_by_label("Could hurt someone").check()
    picture = jpeg("crack.jpg")
    friend.get_by_label("Or choose some").set_input_files(
        {"name": "crack.jpg", "mimeType": "image/jpeg", "buffer": picture.read()}
    )
    friend.context.clear_cookies(name="sessionid")  # his session ended meanwhile
    friend.get_by_role("button", name="Save").click()
    friend.get_by_text("You were signed out.").wait_for()
    beside = friend.context.new_page()
    beside.goto(sign_in_address(url))
    beside.get_by_role("button", name="Sign in").click()
    beside.wait_for_url(lambda to: "/enter/" not in to)
    friend.get_by_role("button", name="Save").click()
    friend.get_by_role("heading", name="Hairline crack at the lower eye", level=1).wait_for()
    assert friend.locator("img[src*='/photos/']").count() == 1
    page.get_by_role("button", name="Show it").click()
    page.get_by_text("Hairline crack at the lower eye").first.wait_for(state="attached")

    # Shared, and answered by somebody who is signed in nowhere.
    page.goto(f"{url}/share/add/?vehicle={job.vehicle_id}")
    page.get_by_text("Job titles as they are written").click()
    page.get_by_text("Hairline crack at the lower eye, to do").wait_for()
    page.get_by_label("Parts we are looking for").check()
    page.get_by_role("button", name="Make the link").click()
    shared = address_on(page, url)
    stranger = guest_page()
    stranger.goto(shared)
    stranger.get_by_text("I have one").click()
    stranger.get_by_label("Your name").fill("Ravi")
    stranger.get_by_label("What you have").fill("A good one, 07700 900123")
    stranger.get_by_role("button", name="Tell the owner").click()
    stranger.get_by_text("The owner is told that you have one: front hub.").wait_for()
    assert PartOffer.objects.count() == 1
    page.goto(f"{url}/")
    page.get_by_text("Ravi: “A good one, 07700 900123”").wait_for()

    page.goto(f"{url}/links/")
    page.get_by_role("button", name=re.compile("Revoke.*Status of Heron")).click()
    page.get_by_text(re.compile("is revoked")).wait_for()
    stranger.goto(shared)
    stranger.get_by_role("heading", name="Not here").wait_for()


def sign_in_address(url):
    tove = Membership.objects.get(person__name="Tove").person
    return f"{url}/enter/{make_link(tove, lasts=OWN_LINK, at=clock.now())}/"
