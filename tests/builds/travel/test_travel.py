"""How cars get to their events: written on the entry, said where the event is, and a date for what takes them."""

from datetime import timedelta
from io import StringIO

import pytest
from django.core.management import call_command
from django.db import DatabaseError, IntegrityError, transaction

from builds.cars import actions as cars
from builds.paper.pages.checklist import checklist_rows
from builds.paper.sheets.checklist import checklist
from builds.plan.engine.ids import id_of
from garage.actions.refused import Refused
from garage.models import Entry
from tests.builds.plan.plan_kit import enter, evenings, followed, job
from tests.conftest import queries
from tests.factories import NOW, HoldPointFactory, VehicleFactory
from tests.pages import words

pytestmark = pytest.mark.usefixtures("now")
SHARED = "Two cars are on one trailer, “the long one”: Heron and Badger."


@pytest.fixture
def day(cast):
    """Heron and Badger are entered for one event; Tug is a van."""

    class Day:
        heron, badger, tug = (VehicleFactory(garage=cast.garage, name=name) for name in ("Heron", "Badger", "Tug"))
        entry = enter(heron)
        other = Entry.objects.create(event=entry.event, vehicle=badger)

        @staticmethod
        def goes(entry, travels="trailer", tow=None, trailer=""):
            Entry.objects.filter(pk=entry.pk).update(travels=travels, tow=tow, trailer=trailer)

    return Day


def said(client, path):
    return words(client.get(path).content.decode())


def test_it_is_written_on_the_entry(owner, day):
    path = f"/entries/{day.entry.pk}/"
    answer = owner.press(path, {"weight": 1, "travels": "trailer", "tow": day.tug.pk, "trailer": "the long one"})
    assert answer.status_code == 303
    day.entry.refresh_from_db()
    assert (day.entry.travels, day.entry.tow, day.entry.trailer) == ("trailer", day.tug, "the long one")
    page = said(owner, f"/events/{day.entry.event_id}/")
    assert "On the trailer “the long one” behind Tug" in page and "How it gets there is not said yet" in page
    assert "on the trailer “the long one” behind Tug" in said(owner, "/")
    assert "on the trailer “the long one” behind Tug" in said(owner, f"/cars/{day.heron.pk}/")
    assert "Takes Heron to Saltmarsh Hill Climb" in said(owner, f"/cars/{day.tug.pk}/")


def test_what_takes_a_car_does_not_go_before_that_is_over(day):
    day.goes(day.entry, "van", day.tug)
    with pytest.raises(Refused, match="Tug takes Heron to Saltmarsh Hill Climb: say first what else takes it there"):
        cars.let_go(day.tug, at=NOW)
    cars.let_go(day.tug, at=day.entry.event.ends_at)
    day.tug.refresh_from_db()
    assert day.tug.gone_at


def test_it_can_be_said_as_the_car_is_entered(owner, day):
    moth = VehicleFactory(garage=day.heron.garage, name="Moth")
    sent = {"vehicle": moth.pk, "weight": 2, "travels": "van", "tow": day.tug.pk}
    assert owner.press(f"/events/{day.entry.event_id}/entries/add/", sent).status_code == 303
    assert Entry.objects.get(vehicle=moth).tow == day.tug


@pytest.mark.parametrize(
    "sent, field, sentence",
    [
        ({"travels": "driven", "tow": "tug"}, "tow", "Only a car on a trailer or in a van is taken by another."),
        ({"tow": "tug"}, "tow", "Only a car on a trailer or in a van is taken by another."),
        ({"travels": "van", "trailer": "long"}, "trailer", "Only a car on a trailer has one."),
        ({"travels": "flown"}, "travels", "Select a valid choice. flown is not one of the available choices."),
        ({"travels": "trailer", "trailer": "x" * 41}, "trailer", "Ensure this value has at most 40 characters"),
    ],
)
def test_what_does_not_go_together_is_said_at_the_field(owner, day, sent, field, sentence):
    given = {name: day.tug.pk if value == "tug" else value for name, value in sent.items()}
    answer = owner.press(f"/entries/{day.entry.pk}/", {"weight": 1, **given})
    assert answer.status_code == 422
    assert answer.context["form"].errors[field][0].startswith(sentence)


def test_a_car_does_not_take_itself(owner, day):
    answer = owner.press(f"/entries/{day.entry.pk}/", {"weight": 1, "travels": "van", "tow": day.heron.pk})
    assert answer.status_code == 422
    sent = {"vehicle": day.tug.pk, "weight": 1, "travels": "van", "tow": day.tug.pk}
    answer = owner.press(f"/events/{day.entry.event_id}/entries/add/", sent)
    assert answer.context["form"].errors["tow"] == ["A car does not take itself."]


@pytest.mark.parametrize(
    "row",
    [{"travels": "flown"}, {"travels": "van", "trailer": "long"}, {"travels": "trailer", "trailer": "x" * 41}],
)
def test_the_database_holds_the_bounds(day, row):
    with pytest.raises(DatabaseError), transaction.atomic():
        Entry.objects.filter(pk=day.entry.pk).update(**row)


@pytest.mark.parametrize("travels, car", [("driven", "tug"), ("", "tug"), ("van", "heron")])
def test_nor_does_it_keep_a_taker_that_cannot_be(day, travels, car):
    with pytest.raises(IntegrityError), transaction.atomic():
        Entry.objects.filter(pk=day.entry.pk).update(travels=travels, tow=getattr(day, car))


def test_two_cars_on_one_trailer_are_said_wherever_the_event_is(owner, cast, day):
    day.goes(day.entry, tow=day.tug, trailer="the long one")
    day.goes(day.other, tow=day.tug, trailer="the long one")
    for path in (f"/events/{day.entry.event_id}/", "/", "/plan/", f"/cars/{day.heron.pk}/"):
        assert SHARED in said(owner, path), path
    entry = Entry.objects.select_related("event__garage", "vehicle", "tow").get(pk=day.entry.pk)
    rows = checklist_rows(entry, NOW)
    assert rows.troubles[0] == SHARED and rows.rides == "on the trailer “the long one” behind Tug"
    assert checklist(rows).startswith(b"%PDF")
    out = StringIO()
    call_command("plan", "--garage", cast.garage.name, stdout=out, no_color=True)
    assert SHARED in out.getvalue()


def test_a_withdrawn_car_shares_nothing(owner, day):
    day.goes(day.entry, trailer="the long one")
    day.goes(day.other, trailer="the long one")
    Entry.objects.filter(pk=day.other.pk).update(withdrawn_at=NOW)
    assert "on one trailer" not in said(owner, "/")


def test_a_van_with_open_safety_work_is_said(owner, cast, day):
    day.goes(day.entry, tow=day.tug)
    job(day.tug, cast, title="Front brake hoses", rank="safety")
    page = said(owner, f"/events/{day.entry.event_id}/")
    assert "Tug, which takes Heron, is not fit to run" in page and "Front brake hoses" in page


def test_a_car_that_must_not_be_driven_is_not_driven_there(owner, cast, day):
    day.goes(day.entry, "driven")
    day.heron.state = "stands"
    day.heron.save()
    HoldPointFactory(job=job(day.heron, cast, title="Steering arm", rank="safety", state="held"))
    assert "Heron is to be driven there, and must not be driven" in said(owner, "/")


def test_the_work_on_what_takes_a_car_is_due_when_that_car_leaves(cast, day):
    evenings(cast.owner)
    lights = job(day.tug, cast, title="Trailer lights")
    before = followed(cast.garage)
    assert before.jobs[id_of("job", lights.pk)].due is None
    day.goes(day.entry, tow=day.tug)
    after = followed(cast.garage)
    due = after.jobs[id_of("job", lights.pk)].due
    assert after.clock.moment(due) == day.entry.event.due_at == NOW + timedelta(days=3)


def test_its_own_event_counts_where_that_is_sooner(cast, day):
    evenings(cast.owner)
    lights = job(day.tug, cast, title="Trailer lights")
    enter(day.tug, NOW + timedelta(days=1), name="Fair")
    day.goes(day.entry, tow=day.tug)
    plan = followed(cast.garage)
    assert plan.clock.moment(plan.jobs[id_of("job", lights.pk)].due) == NOW + timedelta(days=1)


def test_many_cars_cost_no_more_queries_than_two(owner, cast, day):
    day.goes(day.entry, tow=day.tug)
    day.goes(day.other, "driven")
    path = f"/events/{day.entry.event_id}/"
    few = queries(owner, path)
    for number in range(4):
        car = VehicleFactory(garage=cast.garage, name=f"Car {number}")
        Entry.objects.create(event=day.entry.event, vehicle=car, travels="trailer", tow=day.tug)
    assert queries(owner, path) == few
