"""The day's page has the gear and its dates, is small, counts on, and Today leads there on the day."""

from datetime import timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from builds.scrutineering.actions import check_lists
from builds.scrutineering.models.check import CheckItem
from garage.models import Gear
from tests.builds.paddock.paddock_kit import JSON
from tests.factories import NOW, EntryFactory, EventFactory, JobFactory, VehicleFactory
from tests.pages import words


@pytest.fixture
def entry(cast, now):
    car = VehicleFactory(garage=cast.garage, name="Heron")
    JobFactory(vehicle=car)
    event = EventFactory(garage=cast.garage, name="Saltmarsh", gates_at=NOW + timedelta(days=1))
    return EntryFactory(event=event, vehicle=car)


def page(client, entry):
    answer = client.get(f"/paddock/{entry.event_id}/")
    assert answer.status_code == 200
    return answer.content.decode()


def test_belts_of_the_car_and_what_people_wear_stand_there_as_the_event_judges_them(helper, cast, entry):
    common = {"garage": cast.garage, "made_at": NOW}
    Gear.objects.create(**common, vehicle=entry.vehicle, kind="belts", name="Belts, driver")
    Gear.objects.create(**common, vehicle=VehicleFactory(garage=cast.garage), kind="belts", name="Belts of another")
    Gear.objects.create(**common, member=cast.helper, kind="helmet", name="Blue helmet")
    seen = words(page(helper, entry))
    assert "Gear and its dates" in seen
    assert "Belts, driver" in seen and "Blue helmet" in seen and "Belts of another" not in seen


def test_without_gear_nothing_is_said_of_it(helper, entry):
    assert "Gear and its dates" not in page(helper, entry)


def test_with_a_whole_list_it_is_sixty_thousand_bytes_at_most_as_it_is_sent(helper, cast, entry):
    check_lists.make(entry, by=cast.owner, at=NOW)
    assert 'data-counts="ticked"' in page(helper, entry)
    sent = helper.get(f"/paddock/{entry.event_id}/", headers={"Accept-Encoding": "gzip"})
    assert sent["Content-Encoding"] == "gzip"
    assert len(sent.content) <= 60_000


def asked(client, path):
    with CaptureQueriesContext(connection) as queries:
        assert client.get(path, headers=JSON).status_code == 200
    return len(queries)


def test_what_a_tap_and_a_phone_are_answered_reads_no_verdict(helper, cast, entry):
    check_lists.make(entry, by=cast.owner, at=NOW)
    day = f"/paddock/{entry.event_id}/"
    page(helper, entry)  # the first opens the session
    whole = asked(helper, day)
    assert 1.5 * asked(helper, f"{day}check-{CheckItem.objects.first().pk}/") < whole
    assert 1.5 * asked(helper, f"{day}now/") < whole


def test_today_leads_there_on_the_day_and_not_before(owner, entry, clock):
    link = f"/paddock/{entry.event_id}/"
    assert link not in owner.get("/").content.decode()
    clock.forward(hours=8)  # past midnight: the cars leave that day
    assert link in owner.get("/").content.decode()
