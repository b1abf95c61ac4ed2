"""Somebody new comes, known by a name that says so until he is named."""

import pytest

from builds.remedies.deeds.hands import HandsDeed
from garage.models import Membership
from tests.builds.plan.plan_kit import enter, job, planned
from tests.builds.remedies.remedy_kit import DAY, TOMORROW, apply, card, makes_it
from tests.factories import NOW, SkillFactory


def test_somebody_new_gets_a_place_holder_without_an_account(owner, cast, car):
    for title in ("Fit the fan", "Fit the shroud"):
        job(car, cast, title, likely_minutes=180, high_minutes=180)
    entry = enter(car, NOW + 2 * DAY)
    planned(cast.garage)
    apply(owner, entry, card(owner, entry, "hands"))
    new = Membership.objects.get(person__name="Extra hands")
    assert (new.role, new.works, new.person.email) == ("helper", True, None)
    assert makes_it(entry)


@pytest.mark.usefixtures("late")
def test_the_same_place_holder_comes_again_unless_he_is_in(do):
    for hours, heads in [((600, 720), 1), ((720, 780), 1), ((660, 750), 2)]:
        do(HandsDeed(0, *hours, TOMORROW))
        assert Membership.objects.filter(person__name="Extra hands").count() == heads


@pytest.mark.usefixtures("late")
def test_somebody_new_has_the_skill(cast, do):
    weld = SkillFactory(garage=cast.garage, slug="weld")
    said = do(HandsDeed(weld.pk, 1080, 1320, TOMORROW))
    assert (
        said
        == "Somebody new with the skill “weld” comes Wed 3 Mar 18:00–22:00. To undo: take them out on the people page."
    )
    assert weld in Membership.objects.get(person__name="Extra hands").skills.all()
