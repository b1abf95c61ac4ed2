"""A job is begun where there is room for it, on a car that is there; else a sentence says what is in the way."""

from datetime import timedelta

import pytest

from builds.steps.actions import steps
from builds.today.facts.asked import Asked
from builds.today.pages.card_sheet import card_sheet_rows
from builds.work.facts.room_now import room_now
from builds.work.models.job import Job
from builds.work.models.link import StationHold
from garage.actions.refused import Refused
from tests.builds.plan.plan_kit import evenings, job, planned
from tests.factories import NOW, JobStationFactory, StationFactory, VehicleFactory

pytestmark = pytest.mark.django_db
HOUR = timedelta(hours=1)
TAKEN = "Bay is taken: “Weld the arm” on Badger is in hand there."


@pytest.fixture
def bay(cast):
    return StationFactory(garage=cast.garage, name="Bay", stands=True)


@pytest.fixture
def badger(cast):
    return VehicleFactory(garage=cast.garage, name="Badger")


@pytest.fixture
def heron(cast):
    return VehicleFactory(garage=cast.garage, name="Heron")


def at(station, car, cast, title, units=1, **more):
    """A job that uses a station."""
    row = job(car, cast, title, **more)
    JobStationFactory(job=row, station=station, units=units)
    return row


@pytest.fixture
def weld(bay, badger, cast):
    """In hand on Badger, by Tove."""
    row = at(bay, badger, cast, "Weld the arm")
    steps.start(row, by=cast.helper, at=NOW)
    return row


def begin(row, by):
    steps.start(Job.objects.get(pk=row.pk), by=by, at=NOW + HOUR)


def test_a_station_that_is_taken_refuses_and_says_by_what(cast, bay, heron, weld):
    fan = at(bay, heron, cast, "Fit the fan")
    with pytest.raises(Refused) as refused:
        begin(fan, cast.owner)
    assert str(refused.value) == TAKEN
    assert room_now(cast.garage.pk, NOW).clash(fan, {cast.owner.pk}) == TAKEN
    steps.stop(Job.objects.get(pk=weld.pk), by=cast.helper, at=NOW + HOUR)
    begin(fan, cast.owner)


def test_whoever_has_it_in_hand_puts_it_down_and_goes_on(cast, bay, heron, weld):
    fan = at(bay, heron, cast, "Fit the fan")
    begin(fan, cast.helper)
    weld.refresh_from_db()
    assert weld.state == "waiting"


def test_not_where_somebody_else_stays_on_it(cast, bay, heron, badger):
    both = at(bay, badger, cast, "Weld the arm", hands=2)
    steps.start(both, by=cast.helper, at=NOW, crew=[cast.helper, cast.owner])
    with pytest.raises(Refused, match="Bay is taken"):
        begin(at(bay, heron, cast, "Fit the fan"), cast.helper)


@pytest.mark.parametrize(("capacity", "units", "room"), [(2, 1, True), (2, 2, False), (3, 2, True)])
def test_as_many_as_there_is_room_for(cast, bay, heron, weld, capacity, units, room):
    bay.capacity = capacity
    bay.save()
    fan = at(bay, heron, cast, "Fit the fan", units=units)
    assert room_now(cast.garage.pk, NOW).clash(fan, {cast.owner.pk}) == ("" if room else TAKEN)


def test_a_stripped_car_keeps_its_station_for_itself(cast, bay, heron, badger):
    strip = at(bay, badger, cast, "Strip the front", state="done", finished_at=NOW)
    refit = at(bay, badger, cast, "Refit the arm")
    hold = StationHold.objects.create(station=bay, first=strip, last=refit)
    fan = at(bay, heron, cast, "Fit the fan")
    with pytest.raises(Refused) as refused:
        begin(fan, cast.owner)
    assert str(refused.value) == "Bay is taken: Badger stands there stripped until “Refit the arm” is done."
    begin(at(bay, badger, cast, "Clean the tub"), cast.owner)  # what is worked on it there lies within
    Job.objects.filter(title="Clean the tub").update(state="dropped")
    hold.freed_at, hold.freed_by, hold.freed_because = NOW, cast.owner, "it stands on the trailer"
    hold.save()
    begin(fan, cast.helper)


def test_a_hold_that_has_not_begun_keeps_nothing(cast, bay, heron, badger):
    strip, refit = at(bay, badger, cast, "Strip the front"), at(bay, badger, cast, "Refit the arm")
    StationHold.objects.create(station=bay, first=strip, last=refit)
    begin(at(bay, heron, cast, "Fit the fan"), cast.owner)


def test_a_car_is_in_one_place(cast, bay, badger, weld):
    floor = StationFactory(garage=cast.garage, name="Level floor", stands=True)
    bench = StationFactory(garage=cast.garage, name="Bench", stands=False)
    with pytest.raises(Refused) as refused:
        begin(at(floor, badger, cast, "Weigh it"), cast.owner)
    assert str(refused.value) == "Badger is elsewhere, in Bay: “Weld the arm” on Badger is in hand there."
    begin(at(bench, badger, cast, "Overhaul the caliper"), cast.owner)
    begin(job(badger, cast, "Order the hoses"), cast.owner)


def test_a_stripped_car_is_where_it_stands(cast, bay, badger):
    floor = StationFactory(garage=cast.garage, name="Level floor", stands=True)
    strip = at(bay, badger, cast, "Strip the front", state="waiting")
    StationHold.objects.create(station=bay, first=strip, last=at(bay, badger, cast, "Refit the arm"))
    weigh = at(floor, badger, cast, "Weigh it")
    assert room_now(cast.garage.pk, NOW).clash(weigh, {cast.owner.pk}) == (
        "Badger is elsewhere, in Bay: Badger stands there stripped until “Refit the arm” is done."
    )


def test_today_offers_what_there_is_room_for_and_says_why_not(cast, bay, heron, weld, owner, now):
    evenings(cast.owner)
    fan = at(bay, heron, cast, "Fit the fan", rank="safety")
    hose = job(heron, cast, "Swap a hose", rank="wanted")
    planned(cast.garage)

    def mine():
        return next(person for person in owner.get("/").context["view"].people if person.is_me)

    assert mine().next.card.title == "Swap a hose"
    Job.objects.filter(pk=hose.pk).update(state="dropped")
    page = owner.get("/")
    assert (mine().next.card.title, mine().next.card.steps, mine().next.card.note) == ("Fit the fan", (), TAKEN)
    assert TAKEN.replace("'", "&#x27;") in page.content.decode()
    assert f"/jobs/{fan.pk}/start/" not in page.content.decode()


def test_the_page_of_the_job_says_it_where_the_button_was(cast, bay, heron, weld, owner, now):
    fan = at(bay, heron, cast, "Fit the fan")
    page = owner.get(f"/jobs/{fan.pk}/")
    assert TAKEN.replace("'", "&#x27;") in page.content.decode()
    assert f"/jobs/{fan.pk}/start/" not in page.content.decode()
    assert "Done already" in page.content.decode()
    assert f"/jobs/{fan.pk}/start/" not in owner.get(f"/cars/{heron.pk}/").content.decode()
    answer = owner.press(f"/jobs/{fan.pk}/start/", {"next": "/"}, follow=True)
    assert TAKEN.replace("'", "&#x27;") in answer.content.decode()


def test_the_same_queries_however_many_jobs(cast, bay, heron, weld, django_assert_num_queries):
    for number in range(9):
        at(bay, heron, cast, f"Job {number}")
    with django_assert_num_queries(7):
        room_now(cast.garage.pk, NOW)


def test_sparks_in_hand_stop_as_soon_as_petrol_is_found_elsewhere(cast, badger, heron, owner, now):
    """On the page of the weld and of its car, on Today, in tonight's message, and in the answer to the finding."""
    weld = job(badger, cast, "Weld the bracket", kinds=["hot_work"])
    steps.start(weld, by=cast.helper, at=NOW)
    mats = job(heron, cast, "Wash the mats", systems=["body"])
    steps.start(mats, by=cast.owner, at=NOW)
    assert not room_now(cast.garage.pk, NOW).stops()
    said = "Stop “Weld the bracket” on Badger: the fuel of Heron is open, by “Petrol drips from the union”."
    answer = owner.press(f"/jobs/{mats.pk}/found/", {"line": "Petrol drips from the union"}, follow=True)
    assert said in answer.content.decode()
    assert said in room_now(cast.garage.pk, NOW).stops()[weld.pk]
    for page in ("/", f"/jobs/{weld.pk}/", f"/cars/{badger.pk}/"):
        assert said in owner.get(page).content.decode(), page
    assert said in "".join(owner.get("/").context["view"].message)
    (hand,) = card_sheet_rows(cast.garage, NOW, Asked(job=Job.objects.get(pk=weld.pk))).hands
    assert hand.cards[0].stop.startswith(said) and not hand.cards[0].blocks
    steps.stop(Job.objects.get(pk=weld.pk), by=cast.helper, at=NOW + HOUR)
    assert not room_now(cast.garage.pk, NOW + HOUR).stops()
