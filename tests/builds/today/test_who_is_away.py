"""Whoever only looks is not told when somebody is in, off or at an event; those who work here are."""

from datetime import timedelta

import pytest

from builds.today.facts.asked import Asked
from builds.today.pages.card_sheet import card_sheet_rows
from garage.models import DayHours
from tests.builds.plan.plan_kit import evenings, job, planned, worked
from tests.factories import NOW, EntryFactory, EventFactory, VehicleFactory
from tests.pages import words

TONIGHT = ("at Kiln Lane until", "in from", "not in today", "Not in today")
# What each page says to whoever works here, and to nobody else.
TOLD = {
    "/": (TONIGHT[0], TONIGHT[3], "Ines goes to two events"),
    "/people/": (TONIGHT[0], TONIGHT[2], "18:00-22:00"),
    "the owner": ("Kiln Lane, ", "Not at home", "18:00-22:00"),
    "the helper": ("day off", "At the coast", "18:00-22:00"),
    "/plan/": ("is not in before", "Ines goes to two events"),
    "the event": ("Who goes", "not at home", "Ines goes to two events"),
}


@pytest.fixture
def pages(cast, now):
    """The owner is at an event and goes to another at the same time; the helper is off tonight."""
    for member in (cast.owner, cast.helper):
        evenings(member)
    car = VehicleFactory(garage=cast.garage, name="Heron")
    until = {"ends_at": NOW + timedelta(hours=30), "travel_minutes": 60}
    fair = EventFactory(garage=cast.garage, name="Kiln Lane", gates_at=NOW - timedelta(hours=1), **until)
    later = EventFactory(garage=cast.garage, name="Saltmarsh", gates_at=NOW + timedelta(hours=20), **until)
    for event in (fair, later):
        event.people.add(cast.owner)
    EntryFactory(event=later, vehicle=car)
    DayHours.objects.create(member=cast.helper, day=NOW.date(), kind="off", note="At the coast")
    job(car, cast, title="Fit the fan")
    worked(job(car, cast, title="Bleed the brakes", state="in_hand"), NOW, None, cast.owner)
    planned(cast.garage)
    return {
        **{page: page for page in ("/", "/people/", "/plan/")},
        "the owner": f"/people/{cast.owner.pk}/",
        "the helper": f"/people/{cast.helper.pk}/",
        "the event": f"/events/{fair.pk}/",
    }


def test_whoever_only_looks_is_not_told_who_is_away(helper, viewer, cast, pages):
    for name, page in pages.items():
        to_helper, to_viewer = (words(client.get(page).content.decode()) for client in (helper, viewer))
        assert [said for said in TOLD[name] if said not in to_helper] == [], name
        assert [said for said in (*TONIGHT, *TOLD[name]) if said in to_viewer] == [], name


def test_he_still_reads_what_is_done_and_next(viewer, pages):
    seen = words(viewer.get("/").content.decode())
    assert "Bleed the brakes" in seen and "Fit the fan" in seen
    assert "Waits until there are hands for it." in words(viewer.get(pages["/plan/"]).content.decode())


def test_his_job_cards_name_people_without_their_hours(cast, pages):
    for reader, told in ((cast.viewer, ["Ines"]), (cast.helper, ["Ines, at Kiln Lane until Thu 00:00"])):
        sheet = card_sheet_rows(cast.garage, NOW, Asked(person=cast.owner), reader)
        assert [hand.name for hand in sheet.hands] == told
