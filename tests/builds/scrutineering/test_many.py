"""Many items are ticked in one form, section by section all but those not looked at; nothing is ticked beforehand."""

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


def path(checklist, section=""):
    address = f"/entries/{checklist.entry_id}/checks/many/"
    return f"{address}?section={section}" if section else address


def brakes(checklist):
    return list(CheckItem.objects.filter(checklist=checklist, section="Brakes"))


def section(form, title="Brakes"):
    (drawn,) = [each for each in form.each if each.title == title]
    return drawn


def all_of(form, *titles, but=()):
    """As the form sends it with all of these sections ticked."""
    sent = {}
    for drawn in (section(form, title) for title in titles):
        sent |= {f"{drawn.prefix}-all": "on", f"{drawn.prefix}-seen": drawn.initial["seen"]}
        sent[f"{drawn.prefix}-but"] = [item.pk for item in but if str(item.pk) in drawn.items]
    return sent


def ticked(checklist):
    return set(CheckItem.objects.filter(checklist=checklist, state="ticked"))


def test_nothing_is_ticked_beforehand(helper, checklist):
    form = helper.get(path(checklist)).context["form"]
    assert len(form.each) > 8
    assert not any(drawn[name].value() for drawn in form.each for name in ("all", "but"))


def test_all_but_those_taken_off_are_ticked_by_whoever_looked(helper, cast, checklist):
    first, *others = brakes(checklist)
    form = helper.get(path(checklist)).context["form"]
    answer = helper.press(path(checklist), all_of(form, "Brakes", but=[first]))
    assert answer["Location"] == f"/entries/{checklist.entry_id}/checks/"
    assert ticked(checklist) == set(others)
    assert {item.by for item in ticked(checklist)} == {cast.helper}


def test_several_sections_in_one_form(helper, checklist):
    form = helper.get(path(checklist)).context["form"]
    helper.press(path(checklist), all_of(form, "Brakes", "Fuel"))
    assert {item.section for item in ticked(checklist)} == {"Brakes", "Fuel"}


def test_a_section_to_which_the_list_comes_back_is_one(helper, checklist):
    """Else one tick would be sent for both halves of it, one of them unseen."""
    last = CheckItem.objects.filter(checklist=checklist, section=brakes(checklist)[0].section).last()
    later = CheckItem.objects.filter(checklist=checklist).order_by("place").last()
    CheckItem.objects.filter(pk=later.pk).update(section=last.section)
    form = helper.get(path(checklist)).context["form"]
    assert list(section(form).items.values()) == brakes(checklist)
    assert len({drawn.prefix for drawn in form.each}) == len(form.each)


def test_one_section_alone(helper, checklist):
    form = helper.get(path(checklist, "Brakes")).context["form"]
    assert [drawn.title for drawn in form.each] == ["Brakes"]
    helper.press(path(checklist, "Brakes"), all_of(form, "Brakes"))
    assert ticked(checklist) == set(brakes(checklist))


def test_what_was_worked_on_is_void_or_failed_is_never_among_all_of_them(helper, cast, checklist):
    pedal, leaks = item_of(checklist, "pedal"), item_of(checklist, "brake-leaks")
    tap(pedal, "tick", cast.helper, minutes=-120)
    tap(leaks, "fail", cast.helper)
    worked(checklist.entry.vehicle, "Bleed", ["brakes"], NOW - timedelta(minutes=5), kinds=["hydraulics_opened"])
    form = helper.get(path(checklist)).context["form"]
    drawn = {key for each in form.each for key in each.items}
    alone = dict(choice for _, choices in form.fields["alone"].choices for choice in choices)
    assert not {str(pedal.pk), str(leaks.pk)} & drawn
    assert str(leaks.pk) not in alone
    assert alone[str(pedal.pk)].startswith(f"{pedal.text} (Touched since: “Bleed”")
    helper.press(path(checklist), {"alone": [pedal.pk]})
    assert ticked(checklist) == {pedal}


def test_an_item_that_nobody_saw_drawn_is_not_ticked(helper, checklist):
    form = helper.get(path(checklist)).context["form"]
    first, *others = brakes(checklist)
    sent = all_of(form, "Brakes")
    sent[f"{section(form).prefix}-seen"] = ",".join(str(item.pk) for item in others)
    helper.press(path(checklist), sent)
    assert first not in ticked(checklist)


def test_nothing_ticked_and_exceptions_of_nothing_are_said_at_the_form(helper, checklist):
    answer = helper.press(path(checklist), {})
    assert answer.context["form"].non_field_errors() == ["Tick at least one thing that you looked at."]
    drawn = section(answer.context["form"])
    answer = helper.press(path(checklist), {f"{drawn.prefix}-but": [brakes(checklist)[0].pk]})
    assert answer.status_code == 422
    assert section(answer.context["form"]).errors["all"] == [
        "Tick this too, or take the marks off below: as it is, nothing is ticked."
    ]


def test_a_line_of_another_section_is_no_exception_here(helper, checklist):
    form = helper.get(path(checklist)).context["form"]
    sent = all_of(form, "Brakes")
    sent[f"{section(form).prefix}-but"] = [item_of(checklist, "tank").pk]
    assert helper.press(path(checklist), sent).status_code == 422
    assert ticked(checklist) == set()


def test_what_failed_meanwhile_is_told_and_the_rest_is_ticked(cast, checklist):
    first, second, *_ = brakes(checklist)
    tap(first, "fail", cast.owner)
    count, told = checks.tick_many([first, second], by=cast.helper, at=NOW, key=uuid.uuid4())
    assert count == 1
    assert told == [f"{first}: A fail stands: finish its job, then tick it as mended, or undo the fail."]


def test_the_list_offers_it_where_more_than_one_is_open(helper, viewer, checklist):
    page = f"/entries/{checklist.entry_id}/checks/"
    assert "section=Brakes" in helper.get(page).content.decode()
    assert "section=Brakes" not in viewer.get(page).content.decode()
    form = helper.get(path(checklist)).context["form"]
    helper.press(path(checklist), all_of(form, "Brakes", but=brakes(checklist)[:1]))
    assert "section=Brakes" not in helper.get(page).content.decode()
    assert f'href="{path(checklist)}"' in helper.get(page).content.decode()
