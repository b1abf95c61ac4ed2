"""Journeys round the shelf in a real browser: a label, a donor car, its verdict, and back."""

import re

import pytest

from builds.shelf.actions import shelf
from builds.work.models.owed import Owed
from garage.models import Membership
from parts.models import Part
from tests.browser.conftest import unfold
from tests.factories import NOW, JobFactory, MembershipFactory, VehicleFactory
from tests.parts.factories import PartFactory, PlaceFactory

# The browser adds nothing that a database changes: the rooms test what is pressed here on both.
pytestmark = [pytest.mark.once, pytest.mark.parametrize("size", ["phone"], indirect=True)]


@pytest.fixture
def hubs(db):
    """Front hubs on Badger, which is fit for all that is known; a job on Heron that needs them."""
    member: Membership = MembershipFactory(role="owner", person__name="Ines")
    badger = VehicleFactory(garage=member.garage, name="Badger")
    heron = VehicleFactory(garage=member.garage, name="Heron")
    JobFactory(vehicle=heron, title="Front end", made_by=member)
    part = PartFactory(garage=member.garage, name="Front hubs", single=True, systems=["wheels"], condition="good")
    by, spot = {"by": member, "at": NOW, "quantity": 1}, PlaceFactory(garage=member.garage)
    shelf.carry_out(part, "receive", target=spot, **by)
    shelf.carry_out(part, "fit", source=spot, car=badger, all_along=True, **by)
    return part


def test_a_label_leads_to_a_donor_that_is_robbed_and_given_its_part_back(hubs: Part, sign_in, live_server):
    page = sign_in("Ines")
    page.goto(f"{live_server.url}/c/{hubs.code}/")
    page.get_by_role("heading", name="Front hubs", level=1).wait_for()
    main = page.locator("main")

    main.get_by_role("link", name=re.compile("^Pull")).click()
    said = "Badger will not be fit to run: it is owed Front hubs (safety)."
    main.get_by_text(said).wait_for()
    main.get_by_label("For the job").select_option(label="Heron: Front end")
    main.get_by_role("button", name="Pull").click()
    main.get_by_text("Badger is owed it.").wait_for()

    badger = Owed.objects.get().vehicle
    page.goto(f"{live_server.url}/cars/{badger.pk}/")
    unfold(page)
    main.get_by_text("Open safety job: “Owed: Front hubs”").first.wait_for()
    main.get_by_role("link", name="Gear", exact=True).click()
    main.get_by_role("link", name=re.compile("^Fit it back from the bench")).click()
    assert main.get_by_label("Onto").locator("option:checked").inner_text() == "Badger"
    main.get_by_role("button", name="Fit").click()
    main.get_by_text(re.compile("1 piece fitted")).first.wait_for()

    page.goto(f"{live_server.url}/owed/")
    main.get_by_text("every car has what is its own").wait_for()
    page.goto(f"{live_server.url}/cars/{badger.pk}/")
    unfold(page)
    main.get_by_text("is done, but nobody has signed it").first.wait_for()


def test_a_pull_is_undone_where_it_was_made(hubs: Part, sign_in, live_server):
    page = sign_in("Ines")
    page.goto(f"{live_server.url}/parts/{hubs.pk}/move/pull/")
    page.locator("main").get_by_role("button", name="Pull").click()
    page.locator("main").get_by_role("button", name=re.compile("^Undo")).first.click()
    page.locator("main").get_by_text("(undone)").wait_for()
    assert not Owed.objects.open().exists()
