"""A section is ticked in one go, but for what wants a look of its own."""

import uuid
from datetime import timedelta

import pytest

from builds.scrutineering.actions import checks
from builds.scrutineering.models.check import CheckItem
from tests.builds.scrutineering.check_kit import item_of, made, tap, worked
from tests.factories import NOW

pytestmark = pytest.mark.usefixtures("now")


@pytest.fixture
def checklist(cast):
    return made(cast)


def path(checklist, section="Brakes"):
    return f"/entries/{checklist.entry_id}/checks/many/?section={section}"


def brakes(checklist):
    return list(CheckItem.objects.filter(checklist=checklist, section="Brakes"))


def test_all_but_those_taken_off_are_ticked_by_whoever_looked(helper, cast, checklist):
    first, *others = brakes(checklist)
    form = helper.get(path(checklist)).context["form"]
    assert len(form["items"].value()) == len(others) + 1
    answer = helper.press(path(checklist), {"items": [item.pk for item in others]})
    assert answer["Location"] == f"/entries/{checklist.entry_id}/checks/"
    states = {item: (item.state, item.by) for item in brakes(checklist)}
    assert states.pop(first) == ("open", None)
    assert set(states.values()) == {("ticked", cast.helper)}
    assert CheckItem.objects.exclude(section="Brakes").filter(state="ticked").count() == 0


def test_what_was_worked_on_is_void_or_failed_is_not_ticked_by_itself(helper, cast, checklist):
    pedal, leaks = item_of(checklist, "pedal"), item_of(checklist, "brake-leaks")
    tap(pedal, "tick", cast.helper, minutes=-120)
    tap(leaks, "fail", cast.helper)
    worked(checklist.entry.vehicle, "Bleed", ["brakes"], NOW - timedelta(minutes=5), kinds=["hydraulics_opened"])
    form = helper.get(path(checklist)).context["form"]
    offered = {item.pk for item in form.fields["items"].queryset}
    assert pedal.pk in offered and leaks.pk not in offered
    assert form["items"].value() == []


def test_nothing_ticked_or_a_line_of_another_section_is_said_at_the_form(helper, checklist):
    assert helper.press(path(checklist), {"items": []}).context["form"].errors["items"] == [
        "Tick at least one thing that you looked at."
    ]
    other = item_of(checklist, "tank")
    assert helper.press(path(checklist), {"items": [other.pk]}).status_code == 422


def test_what_failed_meanwhile_is_told_and_the_rest_is_ticked(cast, checklist):
    first, second, *_ = brakes(checklist)
    tap(first, "fail", cast.owner)
    ticked, told = checks.tick_many([first, second], by=cast.helper, at=NOW, key=uuid.uuid4())
    assert ticked == 1
    assert told == [f"{first}: A fail stands: finish its job, then tick it as mended, or undo the fail."]


def test_the_list_offers_it_where_more_than_one_is_open(helper, viewer, checklist):
    page = f"/entries/{checklist.entry_id}/checks/"
    assert "section=Brakes" in helper.get(page).content.decode()
    assert "section=Brakes" not in viewer.get(page).content.decode()
    helper.press(path(checklist), {"items": [item.pk for item in brakes(checklist)][1:]})
    assert "section=Brakes" not in helper.get(page).content.decode()
