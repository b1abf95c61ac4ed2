"""Entries and nights ahead are remembered until somebody writes, and end by the clock all the while."""

from datetime import timedelta

import pytest
from django.db import connection
from django.db.models import F
from django.test.utils import CaptureQueriesContext

from garage.facts.entries import entries_ahead, kept_ahead, nights_ahead
from garage.models import Garage, Night, Vehicle
from tests.factories import NOW, EntryFactory, EventFactory, VehicleFactory

pytestmark = [pytest.mark.django_db(transaction=True), pytest.mark.once]
DAY = timedelta(days=1)


@pytest.fixture(autouse=True)
def remembers(settings, monkeypatch):
    settings.REMEMBERS = True
    monkeypatch.setattr("garage.remembered._notes", {})


@pytest.fixture
def two(cast):
    """An entry for tomorrow and one for the week after, each with its night."""
    car, entries = VehicleFactory(garage=cast.garage), []
    for days in (1, 8):
        event = EventFactory(garage=cast.garage, gates_at=NOW + days * DAY, ends_at=NOW + days * DAY + DAY)
        entries.append(EntryFactory(event=event, vehicle=car))
        evening = {"from_at": event.gates_at, "until_at": event.gates_at + DAY / 4, "due_at": event.ends_at}
        Night.objects.create(event=event, **evening)
    return entries


def ahead(garage, at):
    nights = [night.event_id for night in nights_ahead(garage, at)]
    entries = entries_ahead(garage, at)
    assert nights == [entry.event_id for entry in entries]
    return entries


def test_what_is_over_goes_by_the_clock_alone_and_comes_back_with_one_set_back(cast, two):
    garage = Garage.objects.get(pk=cast.garage.pk)
    assert ahead(garage, NOW) == two
    with CaptureQueriesContext(connection) as asked:
        assert ahead(garage, NOW + 3 * DAY) == two[1:]
        assert ahead(garage, NOW) == two
    assert len(asked) == 0
    assert ahead(garage, NOW - DAY) == two
    garage = Garage.objects.get(pk=cast.garage.pk)
    garage.writes += 1
    assert ahead(garage, NOW + 3 * DAY) == two[1:]
    assert ahead(garage, NOW) == two


def test_a_write_is_seen_and_a_car_that_is_gone_is_kept_apart(cast, two):
    garage = Garage.objects.get(pk=cast.garage.pk)
    assert kept_ahead(garage, NOW) == two
    Vehicle.objects.filter(pk=two[0].vehicle_id).update(gone_at=NOW)
    Garage.objects.filter(pk=garage.pk).update(writes=F("writes") + 1)
    garage = Garage.objects.get(pk=cast.garage.pk)
    assert kept_ahead(garage, NOW) == []
    assert entries_ahead(garage, NOW) == two
