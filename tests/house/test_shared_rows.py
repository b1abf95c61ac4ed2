"""Rows that a module's tests share: each test finds them as they were made."""

import pytest

from garage import clock
from garage.models import Vehicle
from tests.factories import NOW, VehicleFactory


@pytest.fixture(scope="module")
def heron(rows_of_module):
    return VehicleFactory(name=f"Heron, hung up at {clock.now():%H:%M}")


@pytest.mark.parametrize("time", ["first", "second"])
def test_what_a_test_does_to_shared_rows_is_taken_back(heron, db, time):
    assert Vehicle.objects.get() == heron
    assert heron.name == Vehicle.objects.get().name == f"Heron, hung up at {NOW:%H:%M}"
    Vehicle.objects.update(name="Moth")
