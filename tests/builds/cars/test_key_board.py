"""The key board: every car kept, what is known of it, where it goes next; read once when drawn."""

from datetime import timedelta

from django.db import connection
from django.template import Context, Template
from django.test import RequestFactory
from django.test.utils import CaptureQueriesContext

from builds.cars.context import key_board
from builds.cars.facts import fleet_of
from builds.cars.pages.key_board import car_cards
from builds.work.facts.left import minutes_left
from builds.work.facts.work import load_work
from tests.factories import NOW, EntryFactory, EventFactory, JobFactory, SpanFactory, VehicleFactory


def cards_of(garage):
    fleet = fleet_of(garage, NOW)
    return car_cards(fleet, minutes_left(fleet.garage, NOW))


def test_a_card_says_the_verdict_worst_first_and_the_nearest_event(cast, now):
    car = VehicleFactory(garage=cast.garage, name="Heron", tape="green")
    JobFactory(vehicle=car, title="Fit the fan", rank="needed")
    JobFactory(vehicle=car, title="Arm", rank="safety", systems=["steering"], state="in_hand")
    for days, name in [(20, "Later"), (10, "Saltmarsh Hill Climb"), (-3, "Over")]:
        event = EventFactory(garage=cast.garage, name=name, gates_at=NOW + timedelta(days=days), travel_minutes=90)
        EntryFactory(event=event, vehicle=car)
    (card,) = cards_of(cast.garage)
    assert (card.name, card.tape, card.url) == ("Heron", "green", f"/cars/{car.pk}/")
    assert card.line == "Saltmarsh Hill Climb, leaves Fri 12 Mar 15:30"
    assert card.sentence == "Not fit to run: 2 things stand in the way"
    assert card.do_not_drive
    assert (card.word, card.left) == ("do not drive", "2 h")
    assert card.reasons == (
        "“Arm” is in hand: take its joints as loose.",
        "Open needed job: “Fit the fan”",
    )
    assert card.stripe == ""


def test_cars_gone_and_cars_of_others_hang_elsewhere(cast, now):
    VehicleFactory(garage=cast.garage, gone_at=NOW)
    VehicleFactory(garage=cast.stranger.garage)
    assert cards_of(cast.garage) == []


def test_a_time_to_leave_that_has_passed_is_said(cast, now):
    event = EventFactory(garage=cast.garage, name="Kiln Lane", gates_at=NOW)
    EntryFactory(event=event)
    (card,) = cards_of(cast.garage)
    assert card.line == "Kiln Lane, was due to leave Tue 2 Mar 16:00"


def test_every_full_page_and_every_fragment_carries_it(owner, cast, now):
    VehicleFactory(garage=cast.garage, name="Heron")
    for headers in ({}, {"HX-Request": "true", "HX-Target": "main"}):
        page = owner.get("/stations/", headers=headers).content.decode()
        assert 'id="key-board"' in page
        assert "Heron" in page and "Not known to be fit" in page


def test_it_is_read_only_when_drawn_and_only_once(cast, now):
    VehicleFactory(garage=cast.garage)
    request = RequestFactory().get("/")
    request.member = cast.owner
    drawn = Template("{% if key_board %}{% for car in key_board %}x{% endfor %}{% endif %}")
    counts = []
    for times in (1, 2):
        with CaptureQueriesContext(connection) as none:
            context = key_board(request)
        assert len(none) == 0
        with CaptureQueriesContext(connection) as some:
            for _ in range(times):
                assert drawn.render(Context(context)) == "x"
        counts.append(len(some))
    assert counts[0] == counts[1] > 0


def test_the_work_left_is_what_the_jobs_say_less_what_was_worked(cast, now):
    car, other = VehicleFactory(garage=cast.garage), VehicleFactory(garage=cast.garage)
    put_down = JobFactory(vehicle=car, likely_minutes=60)
    SpanFactory(job=put_down, from_at=NOW - timedelta(minutes=30), until_at=NOW - timedelta(minutes=10))
    by_hand = JobFactory(vehicle=car, likely_minutes=60, left_minutes=90, state="in_hand")
    SpanFactory(job=by_hand, from_at=NOW - timedelta(hours=3), until_at=NOW - timedelta(hours=2))
    SpanFactory(job=by_hand, from_at=NOW - timedelta(minutes=15), until_at=None)
    JobFactory(vehicle=car, state="done")
    fleet, work = fleet_of(cast.garage, NOW), load_work(cast.garage, NOW)
    assert minutes_left(fleet.garage, NOW) == {car.pk: 40 + 75}
    assert work.left(put_down.pk) + work.left(by_hand.pk) == 40 + 75
    assert other.pk not in minutes_left(fleet.garage, NOW)


def test_nobody_has_no_board(db):
    request = RequestFactory().get("/")
    request.member = None
    assert key_board(request) == {}


def test_the_same_queries_for_one_car_and_for_twelve(cast, now):
    def hang():
        car = VehicleFactory(garage=cast.garage)
        JobFactory(vehicle=car, rank="safety")
        EntryFactory(event__garage=cast.garage, vehicle=car)

    hang()
    with CaptureQueriesContext(connection) as one:
        cards_of(cast.garage)
    for _ in range(11):
        hang()
    with CaptureQueriesContext(connection) as twelve:
        assert len(cards_of(cast.garage)) == 12
    assert len(one) == len(twelve)
