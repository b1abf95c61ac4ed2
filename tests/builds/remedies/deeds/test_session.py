"""Somebody comes for some hours as well."""

import pytest

from builds.plan.models import Plan
from builds.remedies.deeds.session import SessionDeed
from garage.actions.refused import Refused
from garage.models import DayHours
from tests.builds.remedies.remedy_kit import TOMORROW, apply, card, makes_it


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
