"""The demo is left as easily as it is entered."""

import pytest

from garage.actions import garages
from garage.actions.refused import Refused
from garage.models import Membership, Person
from tests.conftest import Browserless
from tests.factories import NOW


@pytest.fixture
def newcomer(db, now):
    client = Browserless()
    client.force_login(Person.objects.create_user("Nell"))
    return client


def test_somebody_without_a_garage_loads_it_owns_it_leaves_it_and_founds_one(newcomer):
    assert newcomer.get("/")["Location"] == "/first-run/"
    assert newcomer.press("/demo/").status_code == 303
    assert Membership.objects.get(person__name="Nell").role == "owner"
    page = newcomer.get("/").content.decode()
    assert "Heron" in page and "Leave the demo" in page
    assert newcomer.press("/demo/leave/").status_code == 303
    assert newcomer.get("/")["Location"] == "/first-run/"
    assert newcomer.get("/first-run/").status_code == 200
    own = {"name": "Own", "time_zone": "UTC", "units": "metric", "paper": "a4", "currency": "EUR"}
    assert newcomer.press("/first-run/", own).status_code == 303
    assert "Own" in newcomer.get("/").content.decode()


@pytest.mark.once
def test_whoever_has_one_is_in_it_again(owner, cast, now):
    owner.press("/demo/")
    assert "Heron" in owner.get("/").content.decode()
    owner.press("/demo/leave/")
    page = owner.get("/").content.decode()
    assert cast.garage.name in page and "Leave the demo" not in page
    assert Membership.objects.get(pk=cast.owner.pk).left_at is None


def test_a_real_garage_is_not_left_this_way(owner, cast, now):
    with pytest.raises(Refused, match="is no demo"):
        garages.leave_invented(cast.owner, at=NOW)
    answer = owner.press("/demo/leave/")
    assert "is no demo: whoever owns it can take you out of it." in owner.get(answer["Location"]).content.decode()
    cast.owner.refresh_from_db()
    assert cast.owner.left_at is None
