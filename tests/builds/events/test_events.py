"""Events and entries: when cars are due, times that do not exist, weights."""

from datetime import timedelta

import pytest

from garage.actions import events as actions
from garage.actions.refused import Refused
from garage.models import Entry, Event
from tests.conftest import queries
from tests.factories import NOW, EntryFactory, EventFactory, JobFactory, VehicleFactory

FORM = {
    "name": "Saltmarsh Hill Climb",
    "gates_at": "2027-03-14T07:30",
    "scrutineering_at": "2027-03-14T07:00",
    "ends_at": "2027-03-14T18:00",
    "travel_minutes": "2:30",
}


def test_a_car_is_due_so_long_before_the_earlier_of_gates_and_scrutineering(owner, cast, now):
    owner.press("/events/add/", FORM)
    event = Event.objects.get(garage=cast.garage)
    assert f"{event.due_at:%Y-%m-%d %H:%M}" == "2027-03-14 04:30"
    assert "cars leave Sun 14 Mar 04:30" in owner.get(f"/events/{event.pk}/").content.decode()


def test_its_cars_are_entered_with_it_and_later_one_by_one(owner, cast, now):
    heron, _ = (VehicleFactory(garage=cast.garage, name=name) for name in ("Heron", "Badger"))
    stranger = VehicleFactory(name="Nobody's")
    assert owner.press("/events/add/", {**FORM, "cars": [stranger.pk]}).status_code == 422
    owner.press("/events/add/", {**FORM, "cars": [heron.pk]})
    event = Event.objects.get(garage=cast.garage)
    assert list(event.entries.values_list("vehicle", "weight")) == [(heron.pk, 1)]
    assert "cars" not in owner.get(f"/events/{event.pk}/edit/").context["form"].fields


def test_times_are_the_garages_own(owner, cast, now):
    cast.garage.time_zone = "America/New_York"
    cast.garage.save()
    owner.press("/events/add/", {**FORM, "scrutineering_at": ""})
    event = Event.objects.get()
    # The clocks there went forward at 02:00 that very morning: 07:30 is UTC-4.
    assert event.gates_at.isoformat() == "2027-03-14T11:30:00+00:00"


@pytest.mark.parametrize(
    "field, typed, said",
    [
        ("ends_at", "2027-03-14T06:00", "It ends before the gates open."),
        ("scrutineering_at", "2027-03-14T19:00", "Scrutineering comes before the end."),
        ("gates_at", "soon", "Write a date and a time, such as 2027-05-14 07:30."),
        ("gates_at", "0001-01-01T00:00", "That year is too far away."),
        ("gates_at", "9999-12-31T23:59", "That year is too far away."),
        ("travel_minutes", "a while", "Write a time such as 1.5, 1:30, 90 min or 1 h 30."),
        ("travel_minutes", "900", "At most 7 d."),
        ("name", "", "This field is required."),
    ],
)
def test_bad_times_are_said_at_the_field(owner, cast, now, field, typed, said):
    answer = owner.press("/events/add/", {**FORM, field: typed})
    assert answer.status_code == 422
    assert answer.context["form"].errors[field] == [said]
    assert not Event.objects.exists()


def test_an_event_in_the_past_is_refused(owner, cast, now):
    past = {name: value.replace("2027", "2026") for name, value in FORM.items()}
    answer = owner.press("/events/add/", past)
    assert answer.context["form"].errors["ends_at"] == ["That is over already: an event is still to come."]


def test_an_hour_that_the_clocks_skip_is_refused(owner, cast, now):
    cast.garage.time_zone = "America/New_York"
    cast.garage.save()
    answer = owner.press("/events/add/", {**FORM, "scrutineering_at": "2027-03-14T02:30"})
    assert answer.context["form"].errors["scrutineering_at"] == ["02:30 does not exist that day: the clocks skip it."]


def test_an_hour_that_comes_twice_is_its_first(owner, cast, now):
    cast.garage.time_zone = "America/New_York"
    cast.garage.save()
    # The clocks there go back on 7 November 2027: 01:30 is first UTC-4, then UTC-5.
    autumn = {**FORM, "gates_at": "2027-11-07T01:30", "ends_at": "2027-11-07T18:00"}
    owner.press("/events/add/", {**autumn, "scrutineering_at": ""})
    assert Event.objects.get().gates_at.isoformat() == "2027-11-07T05:30:00+00:00"


def test_an_event_ahead_is_not_moved_into_the_past_and_one_that_is_over_may_be_mended(owner, cast, now):
    past = {name: value.replace("2027", "2026") for name, value in FORM.items()}
    ahead = EventFactory(garage=cast.garage)
    assert owner.press(f"/events/{ahead.pk}/edit/", past).status_code == 422
    over = EventFactory(garage=cast.garage, gates_at=NOW - timedelta(days=3))
    assert owner.press(f"/events/{over.pk}/edit/", past).status_code == 303


def test_what_was_typed_in_the_garages_time_is_drawn_back_so(owner, cast, now):
    cast.garage.time_zone = "America/New_York"
    cast.garage.save()
    owner.press("/events/add/", FORM)
    page = owner.get(f"/events/{Event.objects.get().pk}/edit/").content.decode()
    for name in ("gates_at", "scrutineering_at", "ends_at"):
        assert f'value="{FORM[name]}"' in page


def test_markup_in_names_is_shown_as_typed(owner, cast, now):
    nasty = '"><img src=x onerror=alert(1)>'
    event = EventFactory(garage=cast.garage, name=nasty, place=nasty, note=nasty)
    EntryFactory(event=event, vehicle__name=nasty[:40])
    for path in ("/events/", f"/events/{event.pk}/", f"/events/{event.pk}/delete/"):
        page = owner.get(path).content.decode()
        assert "<img src=x" not in page
        assert "&lt;img src=x" in page


def test_cars_are_entered_weighed_and_taken_out(owner, cast, now):
    event, car = EventFactory(garage=cast.garage), VehicleFactory(garage=cast.garage)
    owner.press(f"/events/{event.pk}/entries/add/", {"vehicle": car.pk, "weight": "3"})
    entry = Entry.objects.get()
    assert entry.weight == 3
    again = owner.press(f"/events/{event.pk}/entries/add/", {"vehicle": car.pk, "weight": "3"})
    assert again.status_code == 422
    owner.press(f"/entries/{entry.pk}/", {"weight": "5"})
    entry.refresh_from_db()
    assert entry.weight == 5
    assert owner.press(f"/entries/{entry.pk}/", {"weight": "99"}).status_code == 422
    owner.press(f"/entries/{entry.pk}/delete/")
    assert not Entry.objects.exists()


def test_the_only_car_is_chosen_already(owner, cast, now):
    VehicleFactory(garage=cast.garage)
    add = f"/events/{EventFactory(garage=cast.garage).pk}/entries/add/"
    assert owner.get(add).context["form"]["vehicle"].value() is not None
    VehicleFactory(garage=cast.garage)
    assert owner.get(add).context["form"]["vehicle"].value() is None


def test_another_garages_car_cannot_be_entered(owner, cast, now):
    event, foreign = EventFactory(garage=cast.garage), VehicleFactory(name="Foreign")
    answer = owner.press(f"/events/{event.pk}/entries/add/", {"vehicle": foreign.pk, "weight": "1"})
    assert answer.status_code == 422
    assert "vehicle" in answer.context["form"].errors
    assert "Foreign" not in answer.content.decode()
    assert not Entry.objects.exists()


def test_only_the_owner_arranges(helper, stranger, cast, now):
    entry = EntryFactory(event__garage=cast.garage)
    event = entry.event
    for client, status in ((helper, 403), (stranger, 404)):
        assert client.press(f"/events/{event.pk}/edit/", FORM).status_code == status
        assert client.press(f"/events/{event.pk}/delete/").status_code == status
        assert client.press(f"/entries/{entry.pk}/delete/").status_code == status
    assert helper.get(f"/events/{event.pk}/").status_code == 200
    assert helper.get(f"/entries/{entry.pk}/sheet.pdf")["Content-Type"] == "application/pdf"
    assert stranger.get(f"/entries/{entry.pk}/sheet.pdf").status_code == 404


def test_as_many_queries_for_three_as_for_one(owner, cast, now):
    event = EventFactory(garage=cast.garage)

    def enter():
        JobFactory(vehicle=EntryFactory(event=event).vehicle)
        EntryFactory(event__garage=cast.garage, event__gates_at=NOW - timedelta(days=3))

    enter()
    paths = ("/events/", f"/events/{event.pk}/")
    one = [queries(owner, path) for path in paths]
    for _ in range(3):
        enter()
        EntryFactory(event__garage=cast.garage, event__gates_at=NOW - timedelta(days=3))
    assert [queries(owner, path) for path in paths] == one


def test_a_car_is_entered_once_and_again_once_it_was_withdrawn(cast):
    event, car = EventFactory(garage=cast.garage), VehicleFactory(garage=cast.garage, name="Moth")
    entry = actions.enter(event, car, weight=3)
    with pytest.raises(Refused, match="Moth is entered already"):
        actions.enter(event, car, weight=5)
    entry.withdrawn_at = NOW
    entry.save()
    again = actions.enter(event, car, weight=5)
    assert (again.pk, again.weight, again.withdrawn_at) == (entry.pk, 5, None)


def test_job_cards_are_this_evenings_and_of_all_it_is_said_how_many(owner, cast, now):
    entry = EntryFactory(event=EventFactory(garage=cast.garage), vehicle=VehicleFactory(garage=cast.garage))
    for state in ("open", "in_hand", "done"):
        JobFactory(vehicle=entry.vehicle, made_by=cast.owner, state=state)
    drawn = " ".join(owner.get(f"/events/{entry.event_id}/").content.decode().split())
    assert '<a class="button" href="/cards/sheet.pdf">Tonight' in drawn
    assert f'href="/cards/sheet.pdf?event={entry.event_id}"> Cards of all 2 open jobs (PDF)' in drawn
