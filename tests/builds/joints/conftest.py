"""A car, and the wheel nuts on its list."""

import pytest

from builds.joints.models import Joint
from tests.builds.joints.joint_kit import FORM
from tests.factories import VehicleFactory


@pytest.fixture
def car(cast):
    return VehicleFactory(garage=cast.garage, name="Heron")


@pytest.fixture
def nuts(owner, car):
    owner.press(f"/cars/{car.pk}/joints/add/", FORM)
    return Joint.objects.get()
