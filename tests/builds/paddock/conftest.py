"""A car entered for the event."""

from datetime import timedelta

import pytest

from tests.factories import NOW, EntryFactory, EventFactory, VehicleFactory


@pytest.fixture
def entry(cast, now):
    event = EventFactory(garage=cast.garage, name="Kiln Lane", gates_at=NOW + timedelta(days=2))
    return EntryFactory(event=event, vehicle=VehicleFactory(garage=cast.garage, name="Moth"))
