"""What a garage holds of somebody given out, and he erased: his own is gone, what he did stays and adds up."""

import io
import json
import zipfile

import pytest
from django.apps import apps
from django.contrib.sessions.models import Session
from django.db import models

from builds.calendar.models import CalendarFeed
from builds.plan.actions.follow import make_plan
from builds.plan.models import Plan
from garage.actions import visits
from garage.actions.erase import erase, erased
from garage.engine.open_files.person import GOES, STAYS, WITH_PERSON
from garage.models import (
    DayHours,
    Device,
    Garage,
    MemberHours,
    Membership,
    Person,
    Receipt,
    SignInLink,
    Visit,
    VisitLink,
)
from parts.models import Move
from tests.conftest import signed_in
from tests.factories import NOW, GarageFactory, MembershipFactory
from tests.garage.backup.homes import garage_tables, run, tables
from tests.pages import words

# What may differ once somebody is erased; every other row of every table is as it was.
ERASED = {*GOES, *WITH_PERSON, "garage_person", "garage_membership", "garage_visit", "builds_plan", "garage_garage"}
ERASED |= {"garage_journalline", "garage_journaltie"}  # that she was erased is written there


@pytest.fixture
def tove(home):
    """The helper who did much of the work, with everything that is hers alone, and a plan that calls her by name."""
    member = Membership.objects.get(person__name="Odd")
    Person.objects.filter(pk=member.person_id).update(name="Tove", email="tove@example.org", surname="Sandvik")
    MemberHours.objects.get_or_create(member=member, weekday=1, from_minute=1080, until_minute=1320)
    DayHours.objects.create(member=member, day=NOW.date(), kind="off")
    link, _ = visits.make(by=member, of=member, days=3, at=NOW)
    Visit.objects.create(link=link, day=NOW, from_minute=1080, until_minute=1200, said_at=NOW)
    CalendarFeed.objects.create(member=member, whole=False, digest="f" * 64, tail="feed", made_at=NOW, changed_at=NOW)
    SignInLink.objects.create(person=member.person, digest="e" * 64, expires_at=NOW)
    Receipt.objects.create(person=member.person, key="1" * 32, digest="a" * 64)
    make_plan(member.garage, at=NOW)
    member.person.refresh_from_db()
    return member


def owner():
    return Membership.objects.owners().get(person__name="Ines")


def test_what_would_go_with_a_membership_or_a_person_is_decided_one_by_one():
    found = {
        (model._meta.db_table, field.column)
        for model in apps.get_models(include_auto_created=True)
        for field in model._meta.local_concrete_fields
        if field.remote_field
        and field.related_model in (Membership, Person)
        and field.remote_field.on_delete is models.CASCADE
    }
    decided = {*GOES.items()} | {(table, "membership_id") for table in STAYS} | {(t, "person_id") for t in WITH_PERSON}
    named = {("builds_skillloan", "member_id"), ("garage_membership", "person_id")}
    assert found == (decided - {("builds_skillloan", "membership_id")}) | named
    assert all(why.strip() for why in STAYS.values())


def test_what_is_held_of_somebody_is_given_to_her_and_to_the_owner(tove):
    for asks in (tove, owner()):
        answer = signed_in(asks).get(f"/people/{tove.pk}/data/")
        assert answer["Content-Disposition"].startswith('attachment; filename="tove-')
        with zipfile.ZipFile(io.BytesIO(b"".join(answer.streaming_content))) as archive:
            held = {name: archive.read(name) for name in archive.namelist()}
    told = {name[5:-5]: json.loads(data) for name, data in held.items() if name.startswith("json/")}
    assert told["garage_person"][0]["email"] == "tove@example.org" and len(told["garage_person"]) == 1
    assert [row["id"] for row in told["garage_membership"]] == [tove.pk]
    assert {row["by_id"] for row in told["parts_move"]} == {tove.pk}
    assert len(told["parts_move"]) == Move.objects.filter(by=tove).count() > 0
    assert len(told["garage_visit"]) == len(told["builds_calendarfeed"]) == len(told["garage_visitlink"]) == 1
    assert len(told["garage_dayhours"]) == DayHours.objects.filter(member=tove).count()
    for table, rows in told.items():
        for row in rows:
            assert table in ("garage_person", "garage_visit") or tove.pk in [row.get(name) for name in row], table
    everything = b"".join(held.values())
    assert b"Ines" not in everything and b"e" * 64 not in everything and b"f" * 64 not in everything
    assert tove.person.password.encode() not in everything
    assert b"Quayside Lock-up holds of Tove" in held["README.txt"]
    assert len([name for name in held if name.startswith("photos/")]) == 2 * tove.photos.count()
    other = Membership.objects.get(person__name="Priya")
    assert signed_in(other).get(f"/people/{tove.pk}/data/").status_code == 403


def test_erased_she_is_nobody_and_all_that_she_did_stands(home, tove):
    shown = signed_in(tove)
    assert shown.get("/").status_code == 200
    key = shown.session.session_key
    assert Device.objects.filter(person=tove.person, session_key=key).exists()
    client = signed_in(owner())
    assert client.press(f"/people/{tove.pk}/link/revoke/").status_code == 303
    before, person = garage_tables(home.database), tove.person_id
    assert "tove@example.org" in str(before)
    asked = words(client.get(f"/people/{tove.pk}/erase/").content.decode())
    assert "The name becomes “Somebody who left”" in asked and "cannot be undone" in asked
    assert signed_in(tove).press(f"/people/{tove.pk}/erase/").status_code == 403
    assert client.press(f"/people/{tove.pk}/erase/").status_code == 303
    after = garage_tables(home.database)
    assert {table for table in before if before[table] != after[table]} <= ERASED
    for table in GOES:
        assert not [row for row in after[table] if row[GOES[table]] == tove.pk], table
    assert not [row for table in WITH_PERSON for row in tables(home.database)[table] if row["person_id"] == person]
    assert not Person.objects.filter(pk=person).exists()
    assert not Visit.objects.exists() and not VisitLink.objects.exists()
    kept = {name: rows for name, rows in after.items() if name != "garage_receipt"}
    for gone in ("tove@example.org", "Sandvik"):
        assert gone not in str(kept)
    plans = json.dumps([[plan.problem, plan.answer, plan.made_from] for plan in Plan.objects.all()])
    assert "Somebody who left" in plans and '"Tove"' not in plans and '"Odd"' not in plans
    assert "Every balance is the sum of its moves: 83 moves" in run("check_ledger")
    assert shown.get("/").status_code == 302 and not Session.objects.filter(session_key=key).exists()
    tove.refresh_from_db()
    assert (tove.name, tove.erased_by.name, tove.person.is_active) == ("Somebody who left", "Ines", False)
    told = words(client.get("/people/").content.decode())
    assert "Who has left: 1 Somebody who left" in told and "erased by Ines on" in told and "Tove" not in told
    assert not [row for row in after["garage_journalline"] if "Tove" in row["said"]]
    assert "sign-in link of Somebody who left is revoked" in words(client.get("/journal/").content.decode())
    assert client.get(f"/people/{tove.pk}/erase/").status_code == 404
    assert client.get(f"/people/{tove.pk}/data/").status_code == 404
    move = Move.objects.filter(by=tove).select_related("part").first()
    assert "Somebody who left" in words(client.get(f"/parts/{move.part_id}/").content.decode())


def test_in_another_garage_somebody_stays_who_he_is_and_the_last_owner_stays_at_all(home, tove):
    there = MembershipFactory(garage=GarageFactory(name="Elsewhere"), person=tove.person)
    erase(tove, by=owner(), at=NOW)
    there.refresh_from_db()
    assert (there.name, there.person.email, there.erased_at) == ("Tove", "tove@example.org", None)
    answer = signed_in(owner()).press(f"/people/{owner().pk}/erase/", follow=True)
    assert "A garage keeps at least one owner" in words(answer.content.decode())
    assert owner().person.name == "Ines"


def test_where_a_name_cannot_be_taken_out_nothing_is_erased(home, tove):
    before = garage_tables(home.database)

    def fails(**more):
        raise RuntimeError("no room for a plan")

    erased.connect(fails)
    try:
        with pytest.raises(RuntimeError, match="no room"):
            erase(tove, by=owner(), at=NOW)
    finally:
        erased.disconnect(fails)
    assert garage_tables(home.database) == before and Garage.objects.count() == 1
