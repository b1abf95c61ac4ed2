"""What a verdict rests on is remembered until somebody writes or the clock changes it, and is true all the while."""

from dataclasses import replace
from datetime import timedelta

import pytest
from django.db import connection, transaction
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from builds.readings.models.age import ReadingAge
from builds.verdict.facts import fleet
from builds.verdict.facts.car import car_facts
from builds.verdict.facts.fleet import facts_of, next_entries
from garage.models import Event, Garage
from tests.builds.readings.reading_kit import limit, require, take
from tests.factories import NOW, EntryFactory, EventFactory, JobFactory, MembershipFactory, VehicleFactory

pytestmark = [pytest.mark.django_db(transaction=True), pytest.mark.once]
MINUTE, DAY = timedelta(minutes=1), timedelta(days=1)


@pytest.fixture(autouse=True)
def remembers(settings):
    settings.REMEMBER_FACTS = True
    fleet._remembered.clear()


@pytest.fixture
def car(cast, clock):
    return VehicleFactory(garage=cast.garage, name="Heron")


def fresh(car, at):
    """What is known of it, loaded from the rows."""
    car.refresh_from_db()
    return car_facts(car.garage, at, [car], next_entries([car], at))[car.pk]


def remembered(car):
    return fleet._remembered[car.garage_id].facts[car.pk, None]


def known(car, at):
    return facts_of(Garage.objects.get(pk=car.garage_id), at, [car])[car.pk]


def test_a_second_look_asks_for_nothing_but_the_next_entries(car):
    known(car, NOW)
    garage = Garage.objects.get(pk=car.garage_id)
    with CaptureQueriesContext(connection) as asked:
        assert facts_of(garage, NOW + MINUTE, [car])[car.pk] == replace(remembered(car), at=NOW + MINUTE)
    assert len([query for query in asked if "garage_entry" not in query["sql"]]) == 0


def test_a_tap_is_seen_at_once(cast, car):
    owner, page = cast.client("owner"), reverse("vehicle_list")
    assert "The car is on stands." not in owner.get(page).content.decode()
    owner.press(reverse("vehicle_state", args=[car.pk]), {"state": "stands"})
    assert "The car is on stands." in owner.get(page).content.decode()
    assert known(car, NOW) == fresh(car, NOW)


def test_what_is_taken_back_was_never_remembered(car):
    """A form that is refused draws its page inside the transaction that is rolled back."""
    with transaction.atomic():
        JobFactory(vehicle=car, rank="safety")
        assert len(known(car, NOW).jobs) == 1
        transaction.set_rollback(True)
    assert known(car, NOW).jobs == ()


def test_a_garage_from_another_backup_is_another_one(cast, car):
    known(car, NOW)
    Garage.objects.filter(pk=cast.garage.pk).update(created_at=NOW)
    JobFactory(vehicle=car)
    assert len(known(car, NOW).jobs) == 1


def test_a_name_that_changes_elsewhere_is_counted_here(cast, car, stranger_too):
    before = Garage.objects.get(pk=cast.garage.pk).writes
    answer = stranger_too.press(reverse("account_page"), {"name": "Wren", "surname": "", "scheme": ""})
    assert answer.status_code == 303
    assert Garage.objects.get(pk=cast.garage.pk).writes == before + 1


@pytest.fixture
def stranger_too(cast):
    """The owner of another garage, who helps here, and looks at his own."""
    MembershipFactory(garage=cast.garage, person=cast.stranger.person, role="helper")
    client = cast.client("stranger")
    session = client.session
    session["garage"] = cast.stranger.garage_id
    session.save()
    return client


def edges(car):
    """Moments at which the clock alone changes something, and one just before and after each."""
    ends = [event.ends_at for event in Event.objects.in_garage(car.garage)]
    ages = [NOW - DAY + timedelta(days=days) for days in ReadingAge.objects.values_list("days", flat=True)]
    midnights = [NOW.replace(hour=0) + number * DAY for number in range(1, 5)]
    return sorted(edge + step for edge in [*ends, *ages, *midnights] for step in (-MINUTE, MINUTE * 0, MINUTE))


def test_what_the_clock_changes_is_known_anew(cast, car):
    """Whatever moment was looked at first, each later one is told as it is."""
    for number in range(2):
        gates = NOW + (2 * number + 1) * DAY
        EntryFactory(event=EventFactory(garage=cast.garage, gates_at=gates, ends_at=gates + 5 * MINUTE), vehicle=car)
    require(car, cast.owner, "camber", "wheel_torque", at=NOW - 2 * DAY)
    for kind in ("camber", "wheel_torque"):
        take(car, kind, cast.owner, at=NOW - DAY)
        limit(car, kind)
    ReadingAge.objects.create(garage=cast.garage, kind="camber", days=2)
    changed = 0
    for moment in (moment for moment in edges(car) if moment >= NOW):
        told = known(car, moment)
        assert told == fresh(car, moment), moment
        changed += told != replace(known(car, NOW), at=moment)
    assert changed


def test_what_is_remembered_lasts_until_the_clock_changes_it(cast, car):
    """Not so short that it serves nobody."""
    known(car, NOW)
    assert fleet._remembered[car.garage_id].until == NOW.replace(hour=0) + DAY
