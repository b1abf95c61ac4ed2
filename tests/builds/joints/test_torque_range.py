"""What thread and class of a joint take stands beside the maker's figure, and too much is said."""

import pytest

from builds.bench.fasteners.torque_range import torque_range
from builds.joints.models import Joint
from builds.joints.pages.words import range_words
from tests.factories import VehicleFactory
from tests.pages import words

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("now")]


def test_a_range_of_thread_and_class():
    """M12x1.75 8.8 at 75 % of proof: 66.0 and 88.0 N·m, ISO 898-1, within 0.6 %."""
    known = torque_range("M12x1.75", "8.8", 82)
    assert known.low == pytest.approx(66.01, rel=0.006)
    assert known.high == pytest.approx(88.01, rel=0.006)
    assert known.share == pytest.approx(70, rel=0.006)
    assert not known.too_much
    assert torque_range("M12x1.75", "8.8", 95).too_much


@pytest.mark.parametrize(("thread", "grade"), [("", "8.8"), ("nonsense", "8.8"), ("M12", ""), ("M12", "stamped")])
def test_what_says_nothing_has_no_range(thread, grade):
    assert torque_range(thread, grade, 80) is None


def test_the_page_of_joints_says_it(owner, cast):
    car = VehicleFactory(garage=cast.garage)
    Joint.objects.create(vehicle=car, name="Lower arm", thread="M12x1.75", klass="8.8", figure_mnm=110_000)
    Joint.objects.create(vehicle=car, name="Hub", thread="M14x1.5", klass="10.9", figure_mnm=150_000)
    body = words(owner.get(f"/cars/{car.pk}/joints/").content.decode())
    assert "Thread and class take 66 N·m oiled to 88 N·m dry" in body
    assert body.count("over 75 %") == 1
    cast.garage.units = "imperial"
    assert "lbf·ft" in range_words(Joint.objects.first(), "imperial")[0]
