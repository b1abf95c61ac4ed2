"""The demo is left as easily as it is entered; somebody in two garages changes between them."""

import pytest

from garage.actions import garages
from garage.actions.refused import Refused
from garage.models import Membership, Person
from tests.conftest import Browserless
from tests.factories import NOW, MembershipFactory


@pytest.fixture
def newcomer(db, now):
    client = Browserless()
    client.force_login(Person.objects.create_user("Ines"))
    return client


def test_whoever_has_no_garage_of_his_own_leaves_it_and_founds_one(newcomer):
    newcomer.press("/demo/")
    assert "Leave the demo" in newcomer.get("/").content.decode()
    assert newcomer.press("/demo/leave/").status_code == 303
    assert newcomer.get("/")["Location"] == "/first-run/"
    assert newcomer.get("/first-run/").status_code == 200
    own = {"name": "Own", "time_zone": "UTC", "units": "metric", "paper": "a4", "currency": "EUR"}
    assert newcomer.press("/first-run/", own).status_code == 303
    assert "Own" in newcomer.get("/").content.decode()


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


class TestTwoGarages:
    @pytest.fixture
    def second(self, cast):
        return MembershipFactory(person=cast.owner.person, role="helper", garage__name="Kiln Lane")

    def test_each_is_one_tap_from_the_other(self, owner, cast, second, now):
        page = owner.get("/account/").content.decode()
        assert f'action="/garages/{second.garage_id}/choose/"' in page
        assert f'action="/garages/{cast.garage.pk}/choose/"' not in page
        assert owner.press(f"/garages/{second.garage_id}/choose/").status_code == 303
        assert owner.get("/people/").context["request"].member == second
        owner.press(f"/garages/{cast.garage.pk}/choose/")
        assert owner.get("/people/").context["request"].member == cast.owner

    def test_the_head_of_every_page_leads_there_for_whoever_is_in_two(self, owner, helper, second, now):
        assert "/account/#garages" in owner.get("/people/").content.decode()
        assert "/account/#garages" not in helper.get("/people/").content.decode()

    def test_one_that_he_is_not_in_or_has_left_is_not_found(self, owner, cast, second, now):
        assert owner.press(f"/garages/{cast.stranger.garage_id}/choose/").status_code == 404
        second.left_at = NOW
        second.save()
        assert owner.press(f"/garages/{second.garage_id}/choose/").status_code == 404
        assert owner.get("/people/").context["request"].member == cast.owner
