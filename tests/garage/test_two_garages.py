"""Somebody in two garages changes between them."""

import pytest

from tests.factories import NOW, MembershipFactory


@pytest.fixture
def second(cast):
    return MembershipFactory(person=cast.owner.person, role="helper", garage__name="Kiln Lane")


def test_each_is_one_tap_from_the_other(owner, cast, second, now):
    page = owner.get("/account/").content.decode()
    assert f'action="/garages/{second.garage_id}/choose/"' in page
    assert f'action="/garages/{cast.garage.pk}/choose/"' not in page
    assert owner.press(f"/garages/{second.garage_id}/choose/").status_code == 303
    assert owner.get("/people/").context["request"].member == second
    owner.press(f"/garages/{cast.garage.pk}/choose/")
    assert owner.get("/people/").context["request"].member == cast.owner


def test_the_head_of_every_page_leads_there_for_whoever_is_in_two(owner, helper, second, now):
    assert "/account/#garages" in owner.get("/people/").content.decode()
    assert "/account/#garages" not in helper.get("/people/").content.decode()


def test_one_that_he_is_not_in_or_has_left_is_not_found(owner, cast, second, now):
    assert owner.press(f"/garages/{cast.stranger.garage_id}/choose/").status_code == 404
    second.left_at = NOW
    second.save()
    assert owner.press(f"/garages/{second.garage_id}/choose/").status_code == 404
    assert owner.get("/people/").context["request"].member == cast.owner
