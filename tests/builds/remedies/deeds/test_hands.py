"""Somebody new comes, known by a name that says so until he is named."""

import pytest

from builds.remedies.deeds.hands import HandsDeed
from garage.models import Membership, Night
from tests.builds.plan.plan_kit import enter, job, planned
from tests.builds.remedies.remedy_kit import DAY, HOUR, TOMORROW, address, apply, card, lonely_car, makes_it, said_on
from tests.factories import NOW, SkillFactory


def test_a_second_pair_of_hands_is_said_to_be_lacking_and_is_tried(owner, cast):
    car = lonely_car(cast)
    job(car, cast, "Read the car as it stands", hands=2)
    entry = enter(car, NOW + 2 * DAY)
    planned(cast.garage)
    said = said_on(owner, address(entry, "?whole"))
    assert (
        "It needs 2 at once, and one person works here: ask who can come, add a person, or say that fewer do it."
        in said
    )
    assert "there is no time" not in said
    assert "Somebody new comes Tue 2 Mar" in said
    apply(owner, entry, card(owner, entry, "hands"))
    assert makes_it(entry)


def test_what_no_change_makes_up_for_is_said_instead_of_another_event(owner, cast):
    car = lonely_car(cast)
    for title in ("Read the car as it stands", "Set rear toe"):
        job(car, cast, title, hands=3)
    entry = enter(car, NOW + 2 * DAY)
    planned(cast.garage)
    said = said_on(owner, address(entry, "?whole"))
    assert (
        "None of them gets it there. “Read the car as it stands” and 1 more have no place as things are. "
        "It needs 3 at once, and one person works here: ask who can come, add a person, or say that fewer do it."
    ) in said
    assert "another event" not in said


def test_what_keeps_it_at_home_is_named_before_what_is_done_overnight_there(owner, cast):
    car = lonely_car(cast)
    entry = enter(car, NOW + 2 * DAY)
    morning = NOW + 4 * DAY
    entry.event.ends_at = morning + DAY
    entry.event.save()
    night = Night.objects.create(event=entry.event, from_at=morning - 10 * HOUR, until_at=morning, due_at=morning)
    job(car, cast, "Bleed it there", hands=3, night=night)
    job(car, cast, "Set rear toe", hands=3)
    planned(cast.garage)
    said = said_on(owner, address(entry, "?whole"))
    assert "“Set rear toe” and 1 more have no place as things are. It needs 3 at once" in said


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
