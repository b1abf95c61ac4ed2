"""Somebody comes for some hours as well."""

from datetime import timedelta

import pytest

from builds.plan.models import Plan
from builds.remedies.deeds.session import SessionDeed
from garage.actions.refused import Refused
from garage.models import DayHours
from tests.builds.remedies.remedy_kit import TOMORROW, address, apply, card, makes_it, said_on
from tests.factories import NOW, EventFactory


def test_a_session_is_in_the_garage_and_the_car_is_on_time(owner, cast, late):
    before = Plan.objects.get()
    answer = apply(owner, late, card(owner, late, "session"))
    body = answer.content.decode()
    assert "By the plan ready Wed" in body
    hours = DayHours.objects.get()
    assert (hours.member, hours.day, hours.kind) == (cast.owner, TOMORROW, "extra")
    assert "To undo: take that day out on the page of Ines." in body
    assert makes_it(late)
    assert Plan.objects.get().pk != before.pk


def test_done_twice_by_two_people_it_is_refused(owner, cast, late):
    code = card(owner, late, "session")
    apply(owner, late, code)
    said = apply(owner, late, code).content.decode()
    assert "overlap." in said
    assert DayHours.objects.count() == 1


@pytest.mark.parametrize(("since", "until"), [(900, 800), (0, 1500), (-60, 60)])
def test_hours_that_are_none_of_one_day_are_refused(cast, late, do, since, until):
    with pytest.raises(Refused, match="begins before it ends"):
        do(SessionDeed(cast.owner.pk, since, until, TOMORROW))


def test_nobody_is_asked_for_hours_in_which_he_is_at_an_event(owner, cast, late, do):
    """Away tomorrow from 17:00 until 23:00: the evening is no offer, and doing it by hand is refused."""
    fair = EventFactory(
        garage=cast.garage, name="Fair", gates_at=NOW + timedelta(hours=25), ends_at=NOW + timedelta(hours=29)
    )
    fair.people.add(cast.owner)
    assert "Ines comes Wed" not in said_on(owner, address(late, "?whole"))
    with pytest.raises(Refused, match="Ines is at Fair then, until Wed 3 Mar 23:00"):
        do(SessionDeed(cast.owner.pk, 18 * 60, 22 * 60, TOMORROW))
