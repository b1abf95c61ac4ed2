"""Who did what, by person, day and kind of device: on each thing and as a whole, never changed."""

from datetime import timedelta

import pytest
from django.db import DatabaseError, connection, transaction

from garage.actions import journal
from garage.engine.journal import NOT_KEPT, act_words
from garage.models import JournalLine, JournalTie, Person
from tests.conftest import queries, signed_in
from tests.factories import NOW, EventFactory, JobFactory, VehicleFactory
from tests.garage.engine.test_devices import PHONE
from tests.house.test_names import VIEWS
from tests.pages import words
from tests.parts.factories import PartFactory

GUESTS = {"share_comment", "share_have", "share_tick", "visit_page", "account_sign_in"}


@pytest.fixture
def day(owner, cast, now):
    """The owner writes on a computer, the helper on a phone."""
    car = VehicleFactory(garage=cast.garage, name="Heron")
    job = JobFactory(vehicle=car, title="Fit the fan", made_by=cast.owner)
    phone = signed_in(cast.helper)
    phone.defaults["HTTP_USER_AGENT"] = PHONE
    phone.press(f"/jobs/{job.pk}/start/", {"stood": "open"})
    owner.press(f"/share/add/?vehicle={car.pk}", {"days": "3", "label": "the club"})
    owner.press(f"/people/{cast.helper.pk}/link/")
    owner.press(f"/cars/{car.pk}/money/", {"drawn": "", "budget": "100"})
    return job


def listed(client, query=""):
    return [f"{row.who} {row.did}" for row in client.get(f"/journal/{query}").context["lines"]]


def test_every_write_has_words():
    acts = {name for name, view in VIEWS.items() if getattr(view, "writes", False)} - NOT_KEPT
    assert len(acts) > 100
    assert all(act_words(act) for act in acts | GUESTS)


def test_it_is_read_whole_and_by_person_day_and_device(owner, helper, cast, day):
    assert "Tove started a job" in listed(owner) and "Ines made a shared page" in listed(owner)
    assert listed(owner, f"?who={cast.helper.pk}") == ["Tove started a job"]
    assert listed(owner, "?device=phone") == ["Tove started a job"]
    assert listed(owner, "?day=2027-03-02") == listed(owner) and listed(owner, "?day=2027-03-01") == []
    seen = words(owner.get("/journal/?device=phone").content.decode())
    assert "“Fit the fan”, Heron" in seen and "phone" in seen and "Tue 2 Mar 17:00" in seen


def test_it_is_read_on_each_thing(owner, helper, cast, day):
    assert listed(owner, f"?of=jobs-{day.pk}") == ["Tove started a job"]
    assert "Tove started a job" in listed(helper, f"?of=cars-{day.vehicle_id}")
    assert listed(owner, f"?of=people-{cast.helper.pk}") == ["Ines made a sign-in link"]
    part = PartFactory(garage=cast.garage)
    pages = f"/jobs/{day.pk}/", f"/cars/{day.vehicle_id}/?tab=log", f"/people/{cast.helper.pk}/", f"/parts/{part.pk}/"
    for page in pages:
        assert "/journal/?of=" in helper.get(page).content.decode()


def test_what_was_said_of_somebody_calls_him_as_he_is_called_now(owner, cast, day):
    owner.press(f"/people/{cast.helper.pk}/link/revoke/")
    owner.press(f"/jobs/{JobFactory(vehicle=day.vehicle, title='Fit the seat for Tove').pk}/start/", {"stood": "open"})
    line = JournalLine.objects.get(act="person_link_revoke")
    assert line.said == f"The sign-in link of {{people-{cast.helper.pk}}} is revoked."
    assert not JournalLine.objects.filter(said__contains="Tove").exists()
    told = {row.said for row in owner.get("/journal/").context["lines"]}
    assert "The sign-in link of Tove is revoked." in told and any("Fit the seat for Tove" in said for said in told)
    Person.objects.filter(pk=cast.helper.person_id).update(name="Tova")
    assert "The sign-in link of Tova is revoked." in words(owner.get("/journal/").content.decode())


def test_what_things_cost_is_for_the_owner(owner, helper, cast, day):
    JournalLine.objects.create(garage=cast.garage, member=cast.owner, at=NOW, act="money_used", said="9 EUR")
    assert "Ines said what used parts count at" in listed(owner)
    assert "Ines said what used parts count at" not in listed(helper)


def test_those_who_look_and_those_outside_do_not_read_it(viewer, stranger, cast, day):
    assert viewer.get("/journal/").status_code == 403
    assert listed(stranger) == []
    assert stranger.get(f"/journal/?of=jobs-{day.pk}").status_code == 404
    for odd in ("?of=jobs-", "?of=jobs-0x1", "?of=money-1", "?who=999999", "?day=32", "?device=fridge", "?page=z"):
        assert stranger.get(f"/journal/{odd}").status_code in (200, 404)


def test_a_write_that_was_refused_leaves_no_line(helper, owner, cast, day):
    before = JournalLine.objects.count()
    assert helper.press("/people/add/", {"name": "X"}).status_code == 403
    assert owner.press("/people/add/", {"name": ""}).status_code == 422
    for path, sent in (
        (f"/people/{cast.owner.pk}/delete/", {}),
        (f"/jobs/{day.pk}/start/", {"stood": "done"}),
        (f"/cars/{day.vehicle_id}/state/", {"state": "apart", "stood": "gone"}),
        (f"/paddock/{EventFactory(garage=cast.garage).pk}/write/", {"kind": "fridge"}),
    ):
        answer = owner.press(path, sent)
        assert answer.status_code == 303 and owner.get(answer["Location"]).context["messages"]
    assert JournalLine.objects.count() == before


def test_a_double_tap_is_one_line(owner, cast, now):
    sent = {"name": "TIG", "key": "7f1d3a52-7f0b-4c0e-9d6b-0a2f6f2d3c12"}
    for _ in range(2):
        owner.post("/skills/add/", sent)
    assert [line.act for line in JournalLine.objects.all()] == ["skill_add"]


def test_no_line_is_changed_or_deleted(cast, day):
    line = JournalLine.objects.first()
    line.said = "Nothing"
    for attempt in (
        line.save,
        line.delete,
        JournalLine.objects.all().delete,
        lambda: JournalLine.objects.update(said=""),
    ):
        with pytest.raises(TypeError):
            attempt()


@pytest.mark.parametrize("model", [JournalLine, JournalTie])
def test_the_database_itself_refuses(cast, day, model):
    table = model._meta.db_table
    for wrong in (f"UPDATE {table} SET id = id + 1000", f"DELETE FROM {table}"):  # noqa: S608 (names of our own tables)
        with pytest.raises(DatabaseError), transaction.atomic(), connection.cursor() as cursor:
            cursor.execute(wrong)


def test_many_lines_cost_no_query_each(owner, cast, day):
    one = queries(owner, "/journal/")
    for number in range(20):
        paths = [f"/jobs/{JobFactory(vehicle=day.vehicle).pk}/"]
        at = NOW + timedelta(seconds=number)
        journal.write(cast.garage, by=cast.owner, act="job_edit", paths=paths, at=at)
    assert queries(owner, "/journal/") == one
