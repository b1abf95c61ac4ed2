"""A car, and an owner who is in on Tuesday and Thursday evenings."""

import pytest

from tests.builds.plan.plan_kit import evenings
from tests.factories import VehicleFactory


@pytest.fixture
def heron(cast, now):
    evenings(cast.owner, days=[1, 3])
    return VehicleFactory(garage=cast.garage, name="Heron")
