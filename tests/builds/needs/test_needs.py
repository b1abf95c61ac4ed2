"""Needs: written down, slipped, there; the plan keeps the job back until the day."""

from datetime import date, timedelta

import pytest

from builds.plan.facts.stored import shown
from builds.work.models.need import Need
from parts.actions import stock
from parts.actions.places import house_place
from tests.builds.plan.plan_kit import evenings, job, main, planned, starts
from tests.conftest import queries
from tests.factories import NOW, JobFactory, NeedFactory, VehicleFactory
from tests.pages import words
from tests.parts.factories import PartFactory, PlaceFactory

pytestmark = pytest.mark.usefixtures("now")
THURSDAY = date(2027, 3, 4)


@pytest.fixture
def car(cast):
    return VehicleFactory(garage=cast.garage, name="Badger")


@pytest.fixture
def hubs(car, cast):
    return job(car, cast, title="Fit front hubs")


def add(client, row, **more):
    return client.press(f"/jobs/{row.pk}/needs/add/", {"what": "front hub", "quantity": 2, **more})


def lines(client, row):
    return client.get(f"/jobs/{row.pk}/").context["view"].waits.needs


def test_what_is_missing_is_on_the_job_with_its_day(owner, hubs):
    answer = add(owner, hubs, supplier="the machine shop", expected_on="2027-03-04")
    assert (answer.status_code, answer["Location"]) == (303, f"/jobs/{hubs.pk}/")
    (line,) = lines(owner, hubs)
    assert (line.what, line.supplier, line.word, line.late) == (
        "2 × front hub",
        "the machine shop",
        "expected Thu 4 Mar",
        False,
    )


def test_what_it_costs_is_kept_in_whole_cents(owner, hubs):
    add(owner, hubs, cost_minor="12,50")
    assert Need.objects.get().cost_minor == 1250
    assert [line.cost for line in lines(owner, hubs)] == ["12.50 EUR"]
    refused = add(owner, hubs, cost_minor="cheap")
    said = ["Write an amount such as 12 or 12.50."]
    assert refused.context["form"].errors["cost_minor"] == said


def test_without_a_day_it_is_to_find_and_keeps_nothing_back(owner, cast, hubs):
    evenings(cast.owner)
    add(owner, hubs)
    assert [line.word for line in lines(owner, hubs)] == ["to find"]
    assert starts(planned(cast.garage))["Fit front hubs"][0] == "Tue 18:00"


def test_the_plan_waits_for_the_day_and_says_so(owner, cast, hubs):
    evenings(cast.owner)
    NeedFactory(job=hubs, expected_on=THURSDAY)
    NeedFactory(job=hubs, what="hub nut", expected_on=THURSDAY - timedelta(days=1))
    assert starts(planned(cast.garage))["Fit front hubs"][0] == "Thu 18:00"
    assert "Waits for the part “front hub”, expected Thu 4 Mar; the first session after that begins Thu 18:00." in main(
        owner
    )


def test_a_part_that_is_not_ordered_takes_its_days_from_today_on_plan_and_today(owner, cast, hubs, clock):
    evenings(cast.owner)
    need = NeedFactory(job=hubs, what="front hub", expected_on=None, lead_days=2, quantity=2)
    assert starts(planned(cast.garage))["Fit front hubs"][0] == "Thu 18:00"
    waits = "aits for the part “front hub”, here Thu 4 Mar if it is ordered today"
    said = main(owner)
    assert f"W{waits}; the first session after that begins Thu 18:00." in said
    assert "Not ordered: 2 × front hub" in said
    for page in ("/", f"/cars/{hubs.vehicle_id}/"):
        assert f"It w{waits}." in words(owner.get(page).content.decode()), page
    clock.forward(hours=24)  # a day on which nobody ordered it
    assert "here Fri 5 Mar if it is ordered today" in main(owner)
    owner.press(f"/needs/{need.pk}/", {"what": "front hub", "quantity": 2, "lead_days": 2, "expected_on": "2027-03-08"})
    said = main(owner)
    assert "part “front hub”, expected Mon 8 Mar" in said
    assert "Not ordered" not in said
    hub, supplier = PartFactory(garage=cast.garage), house_place(cast.garage, "supplier")
    Need.objects.filter(pk=need.pk).update(part=hub, expected_on=None)
    stock.move(hub, "receive", 2, supplier, PlaceFactory(garage=cast.garage), by=cast.owner, at=NOW)
    assert starts(planned(cast.garage, clock.at))["Fit front hubs"][0] == "Wed 18:00"  # it lies on the shelf


def test_the_day_begins_where_the_garage_is(cast, hubs):
    cast.garage.time_zone = "Asia/Tokyo"
    cast.garage.save()
    NeedFactory(job=hubs, expected_on=THURSDAY)
    evenings(cast.owner, since=0, until=24)
    assert starts(planned(cast.garage))["Fit front hubs"][0] == "Thu 00:00"


def test_got_is_one_tap_and_frees_the_job(owner, cast, hubs):
    evenings(cast.owner)
    need = NeedFactory(job=hubs, expected_on=THURSDAY)
    planned(cast.garage)
    assert owner.press(f"/needs/{need.pk}/got/", {"next": "/plan/"})["Location"] == "/plan/"
    need.refresh_from_db()
    assert need.got_at == NOW
    main(owner)
    assert starts(shown(cast.garage))["Fit front hubs"][0] == "Tue 18:00"
    owner.press(f"/needs/{need.pk}/got/", {"got": "no"})
    need.refresh_from_db()
    assert need.got_at is None


def test_a_slipped_date_moves_the_job_and_an_overdue_one_asks(owner, cast, hubs):
    evenings(cast.owner)
    need = NeedFactory(job=hubs, expected_on=NOW.date() - timedelta(days=1))
    (line,) = lines(owner, hubs)
    assert (line.late, line.word) == (True, "was expected Mon 1 Mar")
    data = {"what": "front hub", "quantity": 1, "expected_on": "2027-03-05"}
    assert owner.press(f"/needs/{need.pk}/", data).status_code == 303
    assert starts(planned(cast.garage))["Fit front hubs"][0] == "Fri 18:00"


@pytest.mark.parametrize(
    ("field", "value", "sentence"),
    [
        ("what", "", "This field is required."),
        ("what", "x" * 121, "Ensure this value has at most 120 characters (it has 121)."),
        ("quantity", "0", "Ensure this value is greater than or equal to 1."),
        ("expected_on", "2027-03-01", "That day is over: choose today or a later one."),
        ("expected_on", "2031-01-01", "That is more than two years away."),
        ("expected_on", "soon", "Enter a valid date."),
    ],
)
def test_what_is_wrong_is_said_at_its_field(owner, hubs, field, value, sentence):
    answer = add(owner, hubs, **{field: value})
    assert (answer.status_code, answer.context["form"].errors[field]) == (422, [sentence])
    assert not Need.objects.exists()


def test_a_finished_job_needs_nothing_more(owner, car, cast):
    done = job(car, cast, state="done", finished_at=NOW)
    answer = add(owner, done)
    assert answer.status_code == 422
    assert "open it again first." in answer.content.decode()


def test_taken_off_the_job(owner, hubs):
    need = NeedFactory(job=hubs)
    owner.press(f"/needs/{need.pk}/delete/")
    assert not Need.objects.exists()


def test_who_may(cast, hubs):
    wanted = {"owner": 303, "helper": 303, "viewer": 403, "stranger": 404, "nobody": 302}
    for who, status in wanted.items():
        need = NeedFactory(job=hubs)
        client = cast.client(who)
        assert add(client, hubs).status_code == status
        assert client.press(f"/needs/{need.pk}/got/").status_code == status
        assert client.press(f"/needs/{need.pk}/delete/").status_code == status


def test_markup_in_a_need_is_shown_as_typed(owner, hubs):
    NeedFactory(job=hubs, what="<b>hub</b>", supplier="<i>us</i>")
    body = owner.get(f"/jobs/{hubs.pk}/").content.decode()
    assert "&lt;b&gt;hub&lt;/b&gt;" in body and "<b>hub</b>" not in body


def test_as_many_queries_for_fifty_as_for_one(owner, cast, hubs, car):
    NeedFactory(job=hubs, expected_on=THURSDAY)
    planned(cast.garage)
    first = queries(owner, f"/jobs/{hubs.pk}/"), queries(owner, "/plan/")
    for row in JobFactory.create_batch(25, vehicle=car, made_by=cast.owner):
        NeedFactory(job=row, expected_on=THURSDAY)
        NeedFactory(job=hubs)
    assert (queries(owner, f"/jobs/{hubs.pk}/"), queries(owner, "/plan/")) == first
