"""A garage as open files: all of it and nothing else, and the same again on another server."""

import csv
import errno
import io
import os

import pytest
from django.apps import apps
from django.core.management import CommandError
from django.db import DatabaseError, connection

from builds.packing.models import PackItem
from builds.readings.models.reading import OwnKind
from builds.readings.models.target import RequiredReadings
from builds.work.models.job import Job
from garage.actions import export_garage
from garage.engine.cells import guarded
from garage.engine.open_files.contents import EMAILS, LEFT_OUT, WITHHELD
from garage.facts.garage_rows import GarageBooks
from garage.models import Garage, JournalTie, Membership, Photo, Share, VisitLink
from garage.pages.open_files import guide_text
from tests.conftest import signed_in
from tests.factories import JobFactory
from tests.garage.backup.homes import PASSWORD, at_home, copied, garage_tables, pictures, run
from tests.garage.backup.open_files import MINE, entries, everything, ranked, rows_of
from tests.pages import words

SECRET_NAMES = ("password", "digest", "token", "phrase", "secret", "tail", "email", "session_key")


def test_every_table_is_taken_along_or_left_out_for_a_reason(here):
    """So that no new model can be forgotten: of a garage, a door that it opens, and what it is called in the guide."""
    ours = {model._meta.db_table: model for model in apps.get_models(include_auto_created=True)}
    books, guide = GarageBooks("default"), guide_text()
    assert {*books.models} | {*LEFT_OUT} == {*ours} and not {*books.models} & {*LEFT_OUT}
    assert all(why.strip() for why in LEFT_OUT.values())
    assert {*books.models} - {*books.paths} == {"garage_person"}  # is of whichever garage he is in
    for table, model in ours.items():
        columns = {field.column: field for field in model._meta.local_concrete_fields}
        apart = WITHHELD.get(table, {}) | EMAILS.get(table, {})
        assert {*apart} <= {*columns}
        assert f"`{table}`" in guide
        if table in books.models:
            assert not {name for name in columns if name in SECRET_NAMES} - {*apart}, table
            assert all(f"`{name}`" in guide for name in columns), table
            leads = {field.related_model._meta.db_table for field in columns.values() if field.remote_field}
            assert not leads & {*LEFT_OUT}, table


def test_all_of_it_and_nothing_of_another_garage_and_no_secret(here, open_file):
    held, tables = entries(open_file), rows_of(entries(open_file))
    books, garage = GarageBooks("default"), Garage.objects.get(name=MINE)
    for table, rows in tables.items():
        lines = list(csv.reader(io.StringIO(held[f"csv/{table}.csv"].decode("utf-8-sig"), newline="")))
        assert len(rows) == len(lines) - 1 == books.of(table, garage.pk).count(), table
        if rows:
            assert list(rows[0]) == lines[0]
            said = [value for value in rows[0].values() if isinstance(value, str)]
            assert {guarded(value) for value in said} <= {*lines[1]}
    assert sum(map(len, tables.values())) > 950 and len(tables["parts_move"]) == 83
    assert len([name for name in held if name.startswith("photos/")]) == 10
    text = everything(open_file)
    for secret in (
        *(b"Behind the Wall", b"Walled-in", b"Hidden Coupe", b"Nobody reads this"),
        *(b"ines@example.org", b"d" * 64, b"f" * 64, PASSWORD.encode()),
        *(value.encode() for value in Share.objects.values_list("digest", flat=True)),
        *(value.encode() for value in VisitLink.objects.values_list("digest", flat=True)),
        *(value.encode() for value in Membership.objects.values_list("person__password", flat=True)),
    ):
        assert secret not in text
    assert all(row["revoked_at"] for table in ("garage_share", "garage_visitlink") for row in tables[table])
    assert held["OPEN_FILES.md"].decode() == guide_text()
    assert b"ines@example.org" in everything(_exported(here, "with.zip", with_emails=True))


def _exported(home, name, garage=MINE, **more):
    file = home.folder / name
    run("export_garage", garage, file=file, **more)
    return file


def test_it_comes_into_another_server_the_same_but_for_its_numbers(
    original, two, open_file, tmp_path, django_db_blocker
):
    with django_db_blocker.unblock(), at_home(copied(original, tmp_path / "there")) as there:
        before, shown = garage_tables(there.database), pictures(there.photos)
        said = run("import_garage", open_file)
        number = Garage.objects.order_by("-pk").first().pk
        assert f"{MINE} is here, as number {number}" in said and "its ledger adds up" in said
        again = _exported(there, "again.zip", garage=str(number))
        assert ranked(again) == ranked(open_file)
        for table, rows in before.items():
            assert garage_tables(there.database)[table][: len(rows)] == rows, table
        assert shown.items() <= pictures(there.photos).items() and len(pictures(there.photos)) == 20
        assert "Every balance is the sum of its moves: 166 moves" in run("check_ledger")
        with pytest.raises(DatabaseError, match="never changed"), connection.cursor() as cursor:
            cursor.execute("DELETE FROM parts_move")
        # What stood in a text by its number leads to the row that came along.
        car = PackItem.objects.filter(packlist__event__garage=number, key__contains=":car:").first()
        assert car.key.endswith(f":car:{car.vehicle_id}") and car.vehicle.garage_id == number
        photos = Photo.objects.in_garage(number)
        assert photos.filter(pk__in=Share.objects.in_garage(number).exclude(photos=[]).get().photos).count() == 1
        about, gone = JournalTie.objects.filter(line__garage=number, line__act="job_edit").order_by("pk")
        assert Job.objects.get(pk=about.of).vehicle.garage_id == number and gone.of == 0
        ines = Membership.objects.in_garage(number).owners().get()
        assert about.line.said == f"“Seat of {{people-{ines.pk}}}” is changed."
        kind = OwnKind.objects.in_garage(number).get(name="Seat height")
        assert any(kind.key in row.kinds for row in RequiredReadings.objects.filter(vehicle__garage=number))
        # The owner signs in, and the garage shows itself.
        client = signed_in(ines)
        answer = client.get("/")
        assert answer.status_code == 200 and "Heron" in answer.content.decode()
        assert said.count("/enter/") == 1


def test_an_e_mail_that_somebody_has_already_is_left_out_and_said(here, quick_import):
    file = _exported(here, "emails.zip", with_emails=True)
    assert "Left out: the e-mail ines@example.org, which somebody has here already." in run("import_garage", file)
    number = Garage.objects.order_by("-pk").first().pk
    assert not Membership.objects.in_garage(number).exclude(person__email=None).filter(role="owner").exists()
    Garage.objects.filter(pk=number).update(name="A second time")


def test_whoever_asks_for_a_garage_that_is_not_there_is_told_which_are(here):
    with pytest.raises(CommandError, match=r"There are several garages: say which by its number\. 1 \(Quayside"):
        run("export_garage")
    with pytest.raises(CommandError, match="No garage here is called Nowhere"):
        run("export_garage", "Nowhere")
    with pytest.raises(CommandError, match="is there already, and is left as it is"):
        run("export_garage", MINE, file=_exported(here, "twice.zip"))


def test_the_owner_takes_the_garage_along_by_a_tap(here, monkeypatch):
    owner, helper = (
        signed_in(Membership.objects.filter(role=role).order_by("pk").first()) for role in ("owner", "helper")
    )
    assert 'href="/garage/export/"' in owner.get("/garage/").content.decode()
    assert "?emails=on" in owner.get("/garage/export/").content.decode()
    for query, asked_for in (("", False), ("?emails=on", True)):
        answer = owner.get(f"/garage/export/file/{query}")
        assert answer["Content-Disposition"].startswith('attachment; filename="quayside-lock-up-')
        held = entries(io.BytesIO(b"".join(answer.streaming_content)))
        assert len(rows_of(held)["parts_move"]) == 83
        assert (b"ines@example.org" in held["json/garage_person.json"]) == asked_for
    assert not list(here.folder.glob(".unfinished-*"))
    for page in ("/garage/export/", "/garage/export/file/"):
        assert helper.get(page).status_code == 403

    def full(*args, **more):
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(export_garage, "write_garage", full)
    answer = owner.get("/garage/export/file/", follow=True)
    assert answer.redirect_chain and "Nothing was written: the disk is full" in words(answer.content.decode())


@pytest.mark.skipif(connection.vendor != "postgresql", reason="needs PostgreSQL")
def test_on_postgresql_it_comes_in_beside_itself_and_goes_out_again(
    open_file, quick_import, transactional_db, settings, tmp_path, django_db_blocker
):
    settings.DATA_DIR = tmp_path / "data"
    settings.PHOTO_DIR = settings.DATA_DIR / "photos"
    settings.DATA_DIR.mkdir()
    with django_db_blocker.unblock():
        for _ in range(2):
            run("import_garage", open_file)
        second = Garage.objects.order_by("pk").last()
        run("export_garage", str(second.pk), file=tmp_path / "again.zip")
        assert JobFactory(vehicle=second.vehicles.first()).vehicle.garage_id == second.pk
        assert "166 moves" in run("check_ledger")
    assert ranked(tmp_path / "again.zip") == ranked(open_file)
