"""Gear: entered as its label says, its rules, struck and passed, and who may do which."""

from datetime import date, timedelta

import pytest

from builds.gear.pages import car_gear
from garage.actions import events
from garage.actions import gear as actions
from garage.engine.gear import DateRule
from garage.models import Gear, GearRule, NeededGear
from tests.builds.gear.gear_kit import FORM, gear_reasons, need, not_recorded, piece
from tests.factories import NOW, EntryFactory, EventFactory, JobFactory, VehicleFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def car(cast):
    return VehicleFactory(garage=cast.garage, name="Heron")


def test_a_piece_is_entered_as_its_label_says(helper, car, now):
    answer = helper.press("/gear/add/", {**FORM, "whose": f"car-{car.pk}"})
    gear = Gear.objects.get()
    assert answer.status_code == 303
    assert (gear.vehicle, gear.meaning, gear.printed_on, gear.precision) == (
        car, "made", date(2024, 3, 1), "month",
    )  # fmt: skip
    page = helper.get(f"/gear/{gear.pk}/").content.decode()
    assert "Ran out on 31 March 2026, 2 years to the day, as commonly held for its standard." in page
    assert "the organiser&#x27;s rule and the label decide" in page


def test_a_tyres_code_is_kept_and_its_month_shown(owner, car, now):
    owner.press(
        "/gear/add/",
        {**FORM, "kind": "tyres", "standard": "", "printed": "2319", "whose": f"car-{car.pk}"},
    )
    gear = Gear.objects.get()
    assert gear.code == "2319"
    page = owner.get(f"/gear/{gear.pk}/").content.decode()
    assert "June 2019 (2319)" in page
    assert "Made between 2 June 2019 and 15 June 2019" in page
    assert "7.7 years old on 2 March 2027." in page
    assert 'value="2319"' in owner.get(f"/gear/{gear.pk}/edit/").content.decode()


@pytest.mark.parametrize(
    ("more", "field", "said"),
    [
        ({"printed": "soon"}, "printed", "Write the date as the label does"),
        ({"printed": "2024-02-30"}, "printed", "There is no such day."),
        ({"printed": "1,5"}, "printed", "Write the date as the label does"),
        ({"printed": "NaN"}, "printed", "Write the date as the label does"),
        ({"printed": "2024\0"}, "printed", "Null characters are not allowed."),
        ({"printed": "1903"}, "printed", "A year between 1980 and 2100."),
        ({"printed": "May 2027"}, "printed", "That is still to come"),
        ({"kind": "tyres", "standard": "", "printed": "5419"}, "printed", "There is no week 54"),
        ({"kind": "tyres", "standard": "", "printed": "239"}, "printed", "before 2000"),
        ({"standard": ""}, "meaning", "Say what its date means"),
        ({"kind": "seat"}, "standard", "SFI 16.1 or 16.5 is a standard of: belts."),
        ({"kind": "wings"}, "kind", "Select a valid choice."),
        ({"name": "x" * 5000}, "name", "at most 60 characters"),
        ({"whose": "car-999999"}, "whose", "Select a valid choice."),
    ],
)
def test_bad_input_is_said_at_the_field_and_kept(owner, car, now, more, field, said):
    typed = {**FORM, "whose": f"car-{car.pk}", **more}
    answer = owner.press("/gear/add/", typed)
    assert answer.status_code == 422
    assert said in answer.context["form"].errors[field][0]
    assert not Gear.objects.exists()
    if "\0" not in typed["name"]:
        assert f'value="{typed["name"]}"' in answer.content.decode()


def test_another_garages_car_is_no_place_for_it(owner, cast, now):
    foreign = VehicleFactory(garage=cast.stranger.garage)
    answer = owner.press("/gear/add/", {**FORM, "whose": f"car-{foreign.pk}"})
    assert "whose" in answer.context["form"].errors


def test_the_events_rule_judges(owner, cast, car, now):
    entry = EntryFactory(vehicle=car, event__garage=cast.garage)
    piece(car, last=date(2024, 3, 1), precision="month", meaning="made", standard="sfi-16")
    need(cast, car, "belts")
    assert len(gear_reasons(car)) == 1
    page = owner.get(f"/events/{entry.event_id}/gear/")
    typed = {f"way_{kind}": "printed" for kind in ("seat", "helmet", "head_restraint", "clothing")}
    typed |= dict.fromkeys(
        ("way_window_net", "way_extinguisher", "way_fuel_cell", "way_tyres", "way_papers"),
        "printed",
    )
    typed |= {"way_free": "printed", "way_belts": "end_of_year"}
    assert page.status_code == 200
    bad = owner.press(f"/events/{entry.event_id}/gear/", typed)
    assert bad.context["form"].errors["years_belts"] == ["How many years?"]
    owner.press(f"/events/{entry.event_id}/gear/", {**typed, "years_belts": "5"})
    assert GearRule.objects.get().rule == DateRule("end_of_year", 5)
    assert gear_reasons(car) == []
    owner.press(f"/events/{entry.event_id}/gear/", {**typed, "years_belts": "2"})
    assert gear_reasons(car) == ["Out of date on the day: Belts. Ran out on 31 December 2026, 2 years, to 31 December."]
    assert "Belts: 2 years, to 31 December" in owner.get(f"/events/{entry.event_id}/").content.decode()


def test_an_organisers_rules_go_with_the_name(owner, cast, now):
    first = EventFactory(garage=cast.garage, organiser="Saltmarsh Club")
    actions.set_rules(first, {"belts": DateRule("end_of_year", 5)})
    asked = {"name": "Next", "gates_at": NOW, "ends_at": NOW + timedelta(days=1)}
    second = events.add(cast.garage, organiser="saltmarsh club", **asked)
    other = events.add(cast.garage, organiser="Another", **asked)
    assert [row.rule for row in second.gear_rules.all()] == [DateRule("end_of_year", 5)]
    assert not other.gear_rules.exists()
    GearRule.objects.filter(event=second).delete()
    owner.press(f"/events/{second.pk}/gear/", {"copy": "1"})
    assert second.gear_rules.count() == 1


def test_only_an_owner_passes_what_was_struck(helper, viewer, stranger, cast, car, now):
    gear = piece(car)
    assert helper.press(f"/gear/{gear.pk}/struck/", {"note": "Kerb"}).status_code == 303
    assert helper.press(f"/gear/{gear.pk}/pass/", {"because": "looks fine"}).status_code == 403
    assert stranger.press(f"/gear/{gear.pk}/pass/", {"because": "x"}).status_code == 404
    assert viewer.press(f"/gear/{gear.pk}/struck/", {"note": ""}).status_code == 403
    assert gear_reasons(car) == ["Went through a crash: Belts. Kerb."]


@pytest.mark.parametrize(("kind", "word"), [("belts", "void"), ("seat", "to inspect")])
def test_the_word_beside_what_was_struck_is_the_one_in_its_sentence(car, now, kind, word):
    (line,) = car_gear(piece(car, kind, struck_at=NOW).vehicle, NOW).lines
    assert line.word == word and f": {word}," in line.said


def test_passing_needs_a_reason(owner, car, now):
    gear = piece(car, struck_at=NOW)
    assert owner.press(f"/gear/{gear.pk}/pass/", {"because": " "}).status_code == 422
    assert len(gear_reasons(car)) == 1


def test_out_of_use_and_in_use_again(owner, car, now):
    gear = piece(car)
    owner.press(f"/gear/{gear.pk}/retire/", {"because": "sold"})
    assert "sold" in owner.get("/gear/").content.decode()
    # Somebody else with the same form open does not bring it back.
    late = owner.press(f"/gear/{gear.pk}/retire/", {"because": "webbing cut"})
    assert late.status_code == 422 and "webbing cut" in late.content.decode()
    gear.refresh_from_db()
    assert gear.retired_at and gear.retired_because == "sold"
    owner.press(f"/gear/{gear.pk}/retire/", {"again": "1"})
    gear.refresh_from_db()
    assert gear.retired_at is None


def test_the_usual_gear_by_one_tap(owner, cast, car, now):
    owner.press(f"/cars/{car.pk}/gear/", {"usual": "1"})
    assert NeededGear.objects.get().kinds == [
        "belts", "seat", "helmet", "clothing", "extinguisher",
    ]  # fmt: skip
    assert not not_recorded(car)
    assert "Not on record: Belts, Seat" in owner.get(f"/cars/{car.pk}/?tab=gear").content.decode()
    owner.press(f"/cars/{car.pk}/gear/", {})
    assert not_recorded(car)
    assert owner.press(f"/cars/{car.pk}/gear/", {"kinds": ["x"]}).status_code == 422


def test_what_runs_out_soon_is_shown_and_is_no_reason(owner, cast, car, now):
    JobFactory(vehicle=car)
    entry = EntryFactory(vehicle=car, event__garage=cast.garage)
    gear = piece(car, last=entry.event.ends_at.date() + timedelta(days=60))
    need(cast, car, "belts")
    assert gear_reasons(car) == []
    paths = ("/", f"/events/{entry.event_id}/", "/gear/", f"/gear/{gear.pk}/", f"/cars/{car.pk}/?tab=gear")
    for path in paths:
        assert "Runs out on 12 May 2027" in owner.get(path).content.decode(), path


def test_the_reason_leads_to_the_gear(owner, cast, car, now):
    gear = piece(car, last=date(2026, 1, 1))
    need(cast, car, "belts", "seat")
    page = owner.get(f"/cars/{car.pk}/").content.decode()
    assert f'href="/gear/{gear.pk}/"' in page
    assert f'href="/cars/{car.pk}/gear/"' in page


def test_markup_in_names_is_shown_as_typed(owner, cast, car, now):
    nasty = "<img src=x onerror=alert(1)>"
    gear = piece(car, name=nasty, label=nasty, note=nasty, struck_at=NOW, struck_note=nasty)
    for path in ("/gear/", f"/gear/{gear.pk}/", f"/cars/{car.pk}/?tab=gear", f"/gear/{gear.pk}/pass/"):
        page = owner.get(path).content.decode()
        assert "<img src=x" not in page and "&lt;img src=x" in page


def test_when_it_was_made_is_asked_only_beside_until_when_it_is_valid(helper, cast, now):
    data = {**FORM, "whose": "garage", "standard": "", "meaning": "until", "printed": "2028", "made": "2023"}
    assert helper.press("/gear/add/", data).status_code == 303
    gear = Gear.objects.get()
    assert (gear.made_words, gear.printed_words) == ("2023", "2028")
    assert "2023" in helper.get(f"/gear/{gear.pk}/").content.decode()
    assert 'value="2023"' in helper.get(f"/gear/{gear.pk}/edit/").content.decode()
    for wrong, sentence in (
        ({"meaning": "made", "printed": "2023"}, "The date above says it already: leave this empty."),
        ({"made": "2027-03-03"}, "That is still to come: a label says when it was made."),
        ({"made": "soon"}, "Write the date as the label does: 2024-03-15, March 2024, 03/2024 or 2024."),
    ):
        answer = helper.press("/gear/add/", {**data, **wrong})
        assert answer.status_code == 422 and sentence in answer.context["form"].errors["made"]
