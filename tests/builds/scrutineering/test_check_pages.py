"""The pages of scrutineering: one tap, a form to fail or leave out, who may, what goes wrong."""

from datetime import timedelta

import pytest

from builds.scrutineering.actions import check_lists
from builds.scrutineering.models.check import CarHas, CheckItem, CheckLog
from builds.work.models.job import Job
from tests.builds.scrutineering.check_kit import entered, item_of, made, tap, worked
from tests.conftest import queries
from tests.factories import NOW, EntryFactory, EventFactory, VehicleFactory

pytestmark = pytest.mark.django_db
MANY = "x" * 5000


def text(answer):
    return answer.content.decode()


def test_the_list_is_made_with_one_tap_and_says_how_far_it_is(helper, cast, now):
    entry = entered(cast)
    path = f"/entries/{entry.pk}/checks/"
    assert "No scrutineering list yet" in text(helper.get(path))
    assert helper.press(f"{path}make/")["Location"] == path
    item = CheckItem.objects.get(key="pedal")
    count = CheckItem.objects.count()
    assert f"0 of {count}" in text(helper.get(path))
    assert helper.press(f"/checks/{item.pk}/tick/", {"next": path})["Location"] == path
    page = text(helper.get(path))
    assert f"1 of {count}" in page and "Tove" in page
    assert f"1 of {count}" in text(helper.get(f"/events/{entry.event_id}/"))


def test_a_fail_asks_what_is_wrong_and_leads_to_its_job(helper, cast, now):
    checklist = made(cast)
    item = item_of(checklist, "brake-leaks")
    path = f"/checks/{item.pk}/fail/"
    assert "What is wrong" in text(helper.get(path))
    answer = helper.press(path, {"note": "Left rear <weeps>"})
    assert answer["Location"] == f"/entries/{checklist.entry_id}/checks/"
    page = text(helper.get(answer["Location"]))
    assert "Left rear &lt;weeps&gt;" in page and "1 failed" in page
    opened = Job.objects.get(title="Left rear <weeps>")
    assert f"/jobs/{opened.pk}/" in page
    assert "Left rear &lt;weeps&gt;" in text(helper.get(f"/checks/{item.pk}/"))


def test_leaving_out_without_why_is_refused_at_the_field(helper, owner, cast, now):
    item = item_of(made(cast), "turbo")
    path = f"/checks/{item.pk}/leave-out/"
    assert "Only the owner says that an item does not apply." in text(helper.press(path, {"note": "no time"}))
    assert path not in text(helper.get(f"/checks/{item.pk}/")) and path in text(owner.get(f"/checks/{item.pk}/"))
    answer = owner.press(path, {"note": "  "})
    assert answer.status_code == 422 and "note" in answer.context["form"].errors
    assert owner.press(path, {"note": "No turbo"}).status_code == 303
    item.refresh_from_db()
    assert (item.state, item.note) == ("left_out", "No turbo")


def test_a_tap_that_is_refused_says_why_where_it_was_made(helper, cast, now):
    item = item_of(made(cast), "pedal")
    tap(item, "fail", cast.owner, note="Spongy")
    path = f"/entries/{item.checklist.entry_id}/checks/"
    answer = helper.press(f"/checks/{item.pk}/tick/", {"next": path}, follow=True)
    assert "Finish “Spongy” first, then tick it as mended." in text(answer)
    item.refresh_from_db()
    assert item.state == "failed"


def test_a_button_pressed_twice_ticks_once_and_undo_takes_it_back(helper, cast, now):
    item = item_of(made(cast), "pedal")
    key = {"key": "1b4e28ba-2fa1-4d2b-883f-0016d3cca427"}
    for _ in range(2):
        assert helper.post(f"/checks/{item.pk}/tick/", key).status_code == 303
    row = CheckLog.objects.get()
    assert str(row.key) == key["key"]
    helper.press(f"/checks/{item.pk}/undo/")
    item.refresh_from_db()
    assert item.state == "open"
    assert "taken back" in text(helper.get(f"/checks/{item.pk}/"))


def test_a_void_tick_says_what_touched_it_and_is_ticked_again(helper, cast, clock):
    checklist = made(cast)
    item = item_of(checklist, "pedal")
    tap(item, "tick", cast.helper)
    clock.forward(hours=3)
    worked(checklist.entry.vehicle, "Bleed it", ["brakes"], clock.at - timedelta(hours=1))
    path = f"/entries/{checklist.entry_id}/checks/"
    assert "Touched since: “Bleed it”" in text(helper.get(path))
    helper.press(f"/checks/{item.pk}/tick/")
    assert "Touched since" not in text(helper.get(path))


def test_who_may_tick(cast, viewer, stranger, now):
    checklist = made(cast)
    item = item_of(checklist, "pedal")
    paths = [f"/checks/{item.pk}/{what}/" for what in ("tick", "undo", "fail", "leave-out")]
    paths += [f"/entries/{checklist.entry_id}/checks/make/"]
    for path in paths:
        assert viewer.press(path, {"note": "x"}).status_code == 403
        assert stranger.press(path, {"note": "x"}).status_code == 404
    page = text(viewer.get(f"/entries/{checklist.entry_id}/checks/"))
    assert "Pedal hard" in page and "/tick/" not in page
    assert stranger.get(f"/checks/{item.pk}/").status_code == 404
    item.refresh_from_db()
    assert item.state == "open"


@pytest.mark.parametrize("note", [MANY, "a\x00b"])
def test_garbage_is_refused_and_kept_on_the_page(helper, cast, now, note):
    item = item_of(made(cast), "pedal")
    for what in ("fail", "leave-out"):
        answer = helper.press(f"/checks/{item.pk}/{what}/", {"note": note, "hurts": "NaN"})
        assert answer.status_code == 422
        assert answer.context["form"]["note"].value() == note
    assert not CheckLog.objects.exists()


def test_what_a_car_has_is_said_by_whoever_works_on_it_and_what_it_lacks_by_the_owner(
    owner, helper, viewer, stranger, cast, now
):
    car = VehicleFactory(garage=cast.garage)
    path = f"/cars/{car.pk}/has/"
    assert owner.press(path, {"tags": ["cage"]}).status_code == 303
    assert helper.press(path, {"tags": ["cage", "lights"]}).status_code == 303
    assert CarHas.objects.get().tags == ["cage", "lights"]
    assert helper.press(path, {"tags": ["wings"]}).status_code == 422
    answer = helper.press(path)
    assert (answer.status_code, list(answer.context["form"].errors)) == (422, ["tags"])
    assert CarHas.objects.get().tags == ["cage", "lights"]
    assert owner.press(path).status_code == 303
    assert CarHas.objects.get().tags == []
    assert viewer.press(path).status_code == 403
    assert stranger.press(path).status_code == 404


def test_the_verdict_leads_to_the_list(owner, cast, now):
    checklist = made(cast)
    page = text(owner.get(f"/cars/{checklist.entry.vehicle_id}/"))
    assert "items of the scrutineering list" in page
    assert f'href="/entries/{checklist.entry_id}/checks/"' in page


def test_an_events_page_speaks_of_its_own_list_not_of_the_next_ones(owner, cast, now):
    checklist = made(cast)
    later = EntryFactory(
        vehicle=checklist.entry.vehicle,
        event=EventFactory(garage=cast.garage, gates_at=NOW + timedelta(days=40)),
    )

    def said(event):
        (line,) = owner.get(f"/events/{event}/").context["lines"]
        return [reason.kind for reason in line.verdict.reasons], line.verdict.not_recorded

    kinds, missing = said(later.event_id)
    assert "check" not in kinds and "scrutineering list" in missing
    kinds, missing = said(checklist.entry.event_id)
    assert "check" in kinds and "scrutineering list" not in missing


def test_as_many_queries_for_many_ticks_as_for_few(owner, cast, now):
    checklist = made(cast)
    path = f"/entries/{checklist.entry_id}/checks/"
    tap(checklist.items.first(), "tick", cast.helper)
    few = queries(owner, path)
    for item in checklist.items.all()[1:20]:
        tap(item, "tick", cast.helper)
    for item in checklist.items.all()[20:24]:
        tap(item, "fail", cast.helper)
    worked(checklist.entry.vehicle, "Bleed it", ["brakes"], NOW)
    assert queries(owner, path) == few


def test_as_many_queries_for_the_verdicts_of_many_lists_as_of_one(owner, cast, now):
    event = EventFactory(garage=cast.garage)

    def listed():
        car = VehicleFactory(garage=cast.garage)
        entry = EntryFactory(vehicle=car, event=event)
        checklist = check_lists.make(entry, by=cast.owner, at=NOW)
        tap(checklist.items.first(), "tick", cast.helper)

    listed()
    paths = ("/cars/", f"/events/{event.pk}/")
    one = [queries(owner, path) for path in paths]
    for _ in range(4):
        listed()
    assert [queries(owner, path) for path in paths] == one
