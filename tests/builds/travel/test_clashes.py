"""Two events at the same time, said wherever either of them is."""

from datetime import timedelta
from io import StringIO

import pytest
from django.core.management import call_command

from builds.paper.pages.checklist import checklist_rows
from garage.models import Entry, Event
from tests.builds.plan.plan_kit import enter
from tests.factories import NOW, VehicleFactory
from tests.pages import words

pytestmark = pytest.mark.usefixtures("now")
HOUR, DAY = timedelta(hours=1), timedelta(days=1)
HERON = "Heron is entered for two events at the same time: Saltmarsh Hill Climb and Kiln Lane."
INES = "Ines goes to two events at the same time: Saltmarsh Hill Climb and Kiln Lane."


@pytest.fixture
def both(cast):
    """Heron's two entries: away from Friday 17:00 until Saturday, and from two hours later on."""
    car = VehicleFactory(garage=cast.garage, name="Heron")
    entries = enter(car, NOW + 3 * DAY), enter(car, NOW + 3 * DAY + 2 * HOUR, name="Kiln Lane")
    Event.objects.update(ends_at=NOW + 4 * DAY)
    for entry in entries:
        entry.event.people.add(cast.owner)
    return entries


def said_everywhere(owner, cast, entries):
    paths = ["/", "/plan/", *(f"/events/{entry.event_id}/" for entry in entries)]
    pages = {path: words(owner.get(path).content.decode()) for path in paths}
    out = StringIO()
    call_command("plan", "--garage", cast.garage.name, stdout=out, no_color=True)
    return pages | {"command": out.getvalue()}


def test_it_is_said_on_today_the_plan_both_events_and_in_the_terminal(owner, cast, both):
    for where, said in said_everywhere(owner, cast, both).items():
        assert HERON in said, where
        assert INES in said, where


def test_a_car_is_told_of_it_on_its_page_and_its_sheet(owner, both):
    first = both[0]
    assert HERON in words(owner.get(f"/cars/{first.vehicle_id}/").content.decode())
    entry = Entry.objects.select_related("event__garage", "vehicle", "tow").get(pk=first.pk)
    assert checklist_rows(entry, NOW).troubles == (HERON,)


@pytest.mark.parametrize("since", ["later", "withdrawn", "over"])
def test_where_they_are_not_at_the_same_time_nothing_is_said(owner, cast, both, since):
    first, second = both
    if since == "later":
        Event.objects.filter(pk=second.event_id).update(gates_at=NOW + 5 * DAY, ends_at=NOW + 6 * DAY)
    elif since == "withdrawn":
        Entry.objects.filter(pk=second.pk).update(withdrawn_at=NOW)
        second.event.people.clear()
    else:
        Event.objects.filter(pk=first.event_id).update(gates_at=NOW - 2 * DAY, ends_at=NOW)
    for where, said in said_everywhere(owner, cast, both).items():
        assert "events at the same time" not in said, where
