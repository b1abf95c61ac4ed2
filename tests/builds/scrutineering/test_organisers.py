"""Organisers' own lists: pasted, refused, changed, used for the next event, thrown away."""

import pytest

from builds.scrutineering.actions import check_lists
from builds.scrutineering.models.check import CheckItem, OrganiserList
from builds.verdict.facts.verdict import verdict_of
from tests.builds.scrutineering.check_kit import entered
from tests.conftest import queries
from tests.factories import NOW, EventFactory

pytestmark = pytest.mark.django_db
LIST = {"name": "Kiln Lane Club", "text": "Brakes:\n- Wedge light\n- Pedal", "with_shipped": "on"}


def test_a_pasted_list_serves_the_events_that_name_its_organiser(owner, cast, now):
    EventFactory(garage=cast.garage, name="Autumn", organiser="KILN LANE CLUB")
    assert owner.press("/organisers/add/", LIST)["Location"] == "/organisers/"
    page = owner.get("/organisers/").content.decode()
    assert "2 things to look at" in page and "Autumn" in page
    entry = entered(cast, event__organiser="Kiln Lane Club")
    check_lists.make(entry, by=cast.owner, at=NOW)
    first, second = CheckItem.objects.all()[:2]
    assert (first.text, second.text) == ("Wedge light", "Pedal")
    assert CheckItem.objects.count() > 50


def test_an_event_keeps_its_organiser_and_its_runs(owner, cast, now):
    event = EventFactory(garage=cast.garage)
    form = {
        "name": "Autumn", "gates_at": "2027-03-20T08:00", "ends_at": "2027-03-20T17:00",
        "travel_minutes": "1:00", "organiser": "Kiln Lane Club", "runs": "7",
    }  # fmt: skip
    assert owner.press(f"/events/{event.pk}/edit/", form).status_code == 303
    event.refresh_from_db()
    assert (event.organiser, event.runs) == ("Kiln Lane Club", 7)
    for wrong in ("0", "100", "1,5", "NaN"):
        answer = owner.press(f"/events/{event.pk}/edit/", {**form, "runs": wrong})
        assert answer.status_code == 422 and "runs" in answer.context["form"].errors
    owner.press(f"/events/{event.pk}/edit/", {**form, "runs": ""})
    event.refresh_from_db()
    assert event.runs == 4


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"text": "Brakes:\n\n"}, "text"),
        ({"text": "x" * 201}, "text"),
        ({"text": "x" * 30_000}, "text"),
        ({"text": "a\x00b"}, "text"),
        ({"name": ""}, "name"),
        ({"name": "y" * 81}, "name"),
    ],
)
def test_what_is_no_list_is_refused_at_its_field_and_kept(owner, now, change, field):
    answer = owner.press("/organisers/add/", {**LIST, **change})
    assert answer.status_code == 422 and field in answer.context["form"].errors
    assert answer.context["form"][field].value() == change[field]
    assert not OrganiserList.objects.exists()


def test_one_list_an_organiser(owner, now):
    owner.press("/organisers/add/", LIST)
    answer = owner.press("/organisers/add/", {**LIST, "name": "kiln lane CLUB"})
    assert answer.status_code == 422
    assert "has a list already" in answer.content.decode()


def test_it_is_changed_and_thrown_away_by_the_owner_alone(owner, helper, stranger, now, cast):
    owner.press("/organisers/add/", LIST)
    own = OrganiserList.objects.get()
    path = f"/organisers/{own.pk}/"
    for client, status in ((helper, 403), (stranger, 404)):
        assert client.press(path, LIST).status_code == status
        assert client.press(f"{path}delete/").status_code == status
    assert helper.press("/organisers/add/", LIST).status_code == 403
    owner.press(path, {"name": "Kiln Lane", "text": "<b>Doors</b>"})
    own.refresh_from_db()
    assert (own.name, own.text, own.with_shipped) == ("Kiln Lane", "<b>Doors</b>", False)
    assert "&lt;b&gt;Doors" in owner.get(path).content.decode()
    owner.press(f"{path}delete/")
    assert not OrganiserList.objects.exists()


def test_as_many_queries_for_three_lists_as_for_one(owner, cast, now):
    def keep(name):
        check_lists.keep_organiser(cast.garage, at=NOW, name=name, text="Doors", with_shipped=True)
        EventFactory(garage=cast.garage, organiser=name)

    keep("A")
    one = queries(owner, "/organisers/")
    keep("B")
    keep("C")
    assert queries(owner, "/organisers/") == one


def test_a_list_made_before_its_organiser_was_known_is_made_again_before_the_car_is_fit(owner, cast, now):
    entry = entered(cast, event__organiser="Kiln Lane Club")
    check_lists.make(entry, by=cast.owner, at=NOW)

    def said():
        found = verdict_of(entry.vehicle, NOW).reasons
        return [each.sentence for each in found if "the list itself" in each.sentence]

    assert said() == []
    owner.press("/organisers/add/", LIST)
    (line,) = said()
    assert "made from the general list, and the event goes by the list of Kiln Lane Club" in line
    check_lists.make(entry, by=cast.owner, at=NOW)
    assert said() == []
