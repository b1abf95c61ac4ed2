"""What the verdict hears of gear: judged on the day, never passed unread, struck in a crash."""

from datetime import date, timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from builds.demo.actions.garage import Demo
from builds.demo.actions.gear import DemoGear
from builds.gear.pages import warned_gear
from builds.verdict.facts.verdict import verdicts
from garage.actions import gear as actions
from garage.models import Gear, NeededGear
from tests.builds.gear.gear_kit import EARLIER, FORM, crash, gear_reasons, need, not_recorded, piece
from tests.conftest import queries
from tests.factories import NOW, EntryFactory, VehicleFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def car(cast):
    return VehicleFactory(garage=cast.garage, name="Heron")


def test_gear_is_judged_on_the_events_day(cast, car):
    entry = EntryFactory(vehicle=car, event__garage=cast.garage)
    last = entry.event.ends_at.date()
    gear = piece(car, last=last)
    need(cast, car, "belts")
    assert gear_reasons(car) == []
    gear.printed_on = last - timedelta(days=1)
    gear.save()
    assert gear_reasons(car) == ["Out of date on the day: Belts. Ran out on 12 March 2027, as printed on the label."]


def test_without_an_entry_it_is_judged_today(cast, car):
    piece(car, last=NOW.date())
    need(cast, car, "belts")
    assert gear_reasons(car) == []
    EntryFactory(vehicle=car, event__garage=cast.garage)
    assert len(gear_reasons(car)) == 1


def test_two_straps_are_two_pieces_and_the_worse_one_counts(cast, car):
    piece(car, name="Lap straps")
    piece(car, name="Shoulder straps", last=date(2026, 12, 31))
    need(cast, car, "belts")
    assert [line[:40] for line in gear_reasons(car)] == ["Out of date on the day: Shoulder straps."]


def test_nothing_passes_because_it_was_not_entered(cast, car):
    assert not_recorded(car)
    piece(car, last=None)
    assert gear_reasons(car) == ["Not known to be in date: Belts. No date is on record."]
    need(cast, car, "belts", "helmet")
    assert gear_reasons(car) == [
        "Not known to be in date: Belts. No date is on record.",
        "Not on record: Helmet.",
    ]
    Gear.objects.update(printed_on=date(2028, 1, 1), precision="day")
    need(cast, car)
    assert not NeededGear.objects.exists()
    assert not_recorded(car) and gear_reasons(car) == []


def test_what_a_person_wears_counts_for_every_car_that_must_have_it(cast, car):
    need(cast, car, "helmet")
    helmet = piece(garage=cast.garage, kind="helmet", member=cast.helper, last=date(2026, 1, 1))
    assert len(gear_reasons(car)) == 1
    need(cast, car, "belts")
    piece(car)
    assert gear_reasons(car) == []
    need(cast, car, "belts", "helmet")
    actions.retire(helmet, because="thrown away", at=NOW)
    assert gear_reasons(car) == ["Not on record: Helmet."]


def test_a_helmet_leaves_with_the_person_who_wears_it(cast, car):
    need(cast, car, "helmet")
    piece(garage=cast.garage, kind="helmet", member=cast.helper)
    assert gear_reasons(car) == []
    cast.helper.left_at = NOW
    cast.helper.save()
    assert gear_reasons(car) == ["Not on record: Helmet."]


def test_a_spare_on_the_shelf_is_on_no_car(cast, car):
    need(cast, car, "belts")
    piece(garage=cast.garage)
    assert gear_reasons(car) == ["Not on record: Belts."]


def test_a_crash_leaves_belts_seat_and_helmets_to_inspect(owner, cast, car, now):
    belts, seat = piece(car), piece(car, kind="seat")
    bottle = piece(car, kind="extinguisher")
    helmet = piece(garage=cast.garage, kind="helmet", member=cast.helper)
    need(cast, car, "belts", "seat", "helmet", "extinguisher")
    assert gear_reasons(car) == []
    crash(cast, car, state="signed")
    said = "“Crash check” on Heron, written down 2 March 2027."
    assert gear_reasons(car) == [f"Went through a crash: {name}. {said}" for name in ("Belts", "Seat", "Helmet")]
    for gear in (belts, seat, helmet):
        owner.press(f"/gear/{gear.pk}/pass/", {"because": "Replaced webbing, maker's letter"})
    assert gear_reasons(car) == []
    assert bottle.struck_at is None
    crash(cast, car, at=NOW + timedelta(days=1))
    assert len(gear_reasons(car)) == 3


def test_a_crash_that_is_told_while_somebody_changes_the_label_stays(cast, car):
    belts = piece(car)
    stale = Gear.objects.get()
    actions.strike(belts, note="Kerb", at=NOW)
    actions.change(stale, label="SFI 16.1")
    assert gear_reasons(car) == ["Went through a crash: Belts. Kerb."]
    assert Gear.objects.get().label == "SFI 16.1"


def test_a_crash_goes_with_the_belts_to_another_car(owner, cast, car, now):
    belts = piece(car)
    crash(cast, car)
    other = VehicleFactory(garage=cast.garage)
    typed = {**FORM, "standard": "", "meaning": "until", "printed": "2028"}
    owner.press(f"/gear/{belts.pk}/edit/", {**typed, "whose": f"car-{other.pk}"})
    belts.refresh_from_db()
    assert belts.vehicle == other and belts.struck_by_hand
    assert len(gear_reasons(other)) == 1


def test_belts_written_down_after_the_crash_were_not_in_it(cast, car):
    crash(cast, car, at=EARLIER - timedelta(days=1))
    piece(car)
    assert gear_reasons(car) == []
    Gear.objects.all().delete()
    actions.add(
        cast.garage, at=NOW, struck=True, vehicle=car, kind="belts", name="Old",
        meaning="until", printed_on=date(2028, 1, 1), precision="day",
    )  # fmt: skip
    assert len(gear_reasons(car)) == 1


@pytest.mark.parametrize("dated", ["made_at", "passed_at"])
def test_what_is_dated_after_now_does_not_say_that_it_came_through(cast, car, dated):
    later = NOW + timedelta(days=30)
    passed = {"passed_by": cast.owner, "passed_because": "new webbing"} if dated == "passed_at" else {}
    piece(car, **{dated: later}, **passed)
    crash(cast, car, at=NOW - timedelta(days=1))
    assert len(gear_reasons(car)) == 1
    Gear.objects.update(**{dated: NOW})
    assert gear_reasons(car) == []


def test_what_was_passed_once_is_struck_again_by_the_next_crash(owner, car, now):
    gear = piece(car, struck_at=EARLIER)
    owner.press(f"/gear/{gear.pk}/pass/", {"because": "new webbing"})
    assert gear_reasons(car) == []
    owner.press(f"/gear/{gear.pk}/struck/", {"note": ""})
    assert len(gear_reasons(car)) == 1


def test_a_harness_of_the_demo_has_run_out(db, now):
    demo = Demo(NOW, "UTC")
    for row in demo.data["people"]:
        demo.person(row)
    for row in demo.data["cars"]:
        demo.car(row)
    for row in demo.data["events"]:
        demo.event(row)
    DemoGear(demo.garage, demo.cars, demo.members, by=demo.owner, at=NOW).fill()
    (line,) = gear_reasons(demo.cars["Heron"])
    assert line.startswith("Out of date on the day: Shoulder straps. Ran out on ")
    assert gear_reasons(demo.cars["Badger"]) == []
    assert [line.gear.name for line in warned_gear(demo.garage, NOW)] == ["Hand extinguisher"]
    assert gear_reasons(demo.cars["Moth"]) == ["Not known to be in date: Belts. No date is on record."]


def fleet(cast, count):
    for _ in range(count):
        car = VehicleFactory(garage=cast.garage)
        EntryFactory(vehicle=car, event__garage=cast.garage)
        piece(car)
        piece(car, kind="seat", last=date(2026, 1, 1))
        need(cast, car, "belts", "seat", "helmet")
        crash(cast, car)


def test_the_same_queries_for_one_car_and_for_twelve(owner, cast, now):
    fleet(cast, 1)
    with CaptureQueriesContext(connection) as one:
        verdicts(cast.garage, NOW)
    page = queries(owner, "/gear/")
    fleet(cast, 11)
    with CaptureQueriesContext(connection) as twelve:
        assert len(verdicts(cast.garage, NOW)) == 12
    assert len(one) == len(twelve)
    assert queries(owner, "/gear/") == page
