"""Where the code of the do-not-drive tag leads: the garage to the car, a stranger to just that."""

import pytest

from builds.paper.pages.drive_tag import CODE, drive_tag_rows
from builds.work.models.job import Job
from tests.conftest import Browserless
from tests.factories import NOW, JobFactory, VehicleFactory
from tests.pages import words


@pytest.fixture
def heron(cast, now):
    car = VehicleFactory(garage=cast.garage, name="Heron")
    JobFactory(vehicle=car, title="Weld the arm", rank="safety", systems=["steering"], state="in_hand")
    return car


def code_of(car):
    """As the tag prints it."""
    address = drive_tag_rows(car, NOW).head.address
    return address[address.index("/tag/") :]


def test_a_stranger_is_told_just_that(cast, heron, stranger):
    for who in (Browserless(), stranger):
        answer = who.get(code_of(heron))
        seen = answer.content.decode()
        assert answer.status_code == 200 and "Do not drive or move this car" in seen
        for secret in ("Heron", "Weld", "Ines", cast.garage.name):
            assert secret not in seen[seen.index("<main") :]
        assert answer["X-Robots-Tag"] == "noindex, nofollow"


def test_the_garage_is_led_to_the_car(owner, viewer, heron):
    for who in (owner, viewer):
        assert who.get(code_of(heron))["Location"] == f"/cars/{heron.pk}/"


def test_who_signs_in_first_comes_to_the_car(heron):
    page = Browserless().get(code_of(heron)).content.decode()
    assert f"/sign-in/?next=/cars/{heron.pk}/" in page


def test_a_tag_that_is_out_of_date_forbids_nothing_and_allows_nothing(heron):
    code = code_of(heron)
    Job.objects.all().delete()
    seen = words(Browserless().get(code).content.decode())
    assert "This tag is out of date" in seen and "Ask those who work on this car" in seen
    assert "Do not drive" not in seen


@pytest.mark.parametrize("wrong", ["1", "1:x", "x", "²:x", "%00"])
def test_nobody_counts_through_the_cars(heron, wrong):
    assert Browserless().get(f"/tag/{wrong}/").status_code == 404
    assert Browserless().get(f"/tag/{CODE.sign('9' * 30)}/").status_code == 404
