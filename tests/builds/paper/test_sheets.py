"""The sheet as a download, and the command that writes the same file."""

from django.core.management import CommandError, call_command
from django.db import connection
from django.test.utils import CaptureQueriesContext
from pytest import raises

from builds.paper.pages.drive_tag import drive_tag_rows
from builds.verdict.facts.verdict import verdict_of
from tests.builds.readings.reading_kit import require, take
from tests.factories import (
    NOW,
    EntryFactory,
    EventFactory,
    JobFactory,
    MemberHoursFactory,
    VehicleFactory,
)
from tests.pdf import answered


def test_a_viewer_may_print_and_the_name_is_safe(viewer, entry):
    answer = viewer.get(f"/entries/{entry.pk}/sheet.pdf")
    assert answer.content.startswith(b"%PDF")
    assert answer["Content-Type"] == "application/pdf"
    assert (
        answer["Content-Disposition"] == f'inline; filename="heronx-{entry.event.name.lower().replace(" ", "-")}.pdf"'
    )


def test_the_command_writes_the_same_bytes(viewer, entry, settings, tmp_path, capsys):
    settings.PUBLIC_URL = "https://garage.example"
    file = tmp_path / "sheet.pdf"
    call_command("checklist", entry.vehicle.name, "-o", str(file))
    assert file.read_bytes() == viewer.get(f"/entries/{entry.pk}/sheet.pdf").content


def test_the_command_says_when_there_is_no_such_entry(entry):
    with raises(CommandError, match="Badger is not entered for anything ahead"):
        call_command("checklist", "Badger")


def test_the_command_does_not_choose_between_two_garages(entry):
    EntryFactory(vehicle=VehicleFactory(name=entry.vehicle.name), event=EventFactory())
    with raises(CommandError, match="More than one garage has"):
        call_command("checklist", entry.vehicle.name)


def test_the_tag_has_what_forbids_driving_and_nothing_else(cast, weld):
    JobFactory(vehicle=weld.vehicle, title="Polish", rank="wanted")
    told = [sentence for sentence, _ in drive_tag_rows(weld.vehicle, NOW).reasons]
    assert told[0] == "“Weld the arm” is in hand: take its joints as loose."
    assert not any("Polish" in sentence for sentence in told)


def test_the_tag_asks_its_verdict_once(weld):
    with CaptureQueriesContext(connection) as once:
        verdict_of(weld.vehicle, NOW)
    with CaptureQueriesContext(connection) as asked:
        rows = drive_tag_rows(weld.vehicle, NOW)
    assert rows.head.verdict.startswith("DO NOT DRIVE. ")
    assert len(asked) == len(once)


def test_every_sheet_is_for_whoever_may_look_and_nobody_else(viewer, stranger, weld):
    tag = f"/cars/{weld.vehicle_id}/do-not-drive.pdf"
    for path in ("/cards/sheet.pdf", f"/cards/sheet.pdf?job={weld.pk}", "/owed/sheet.pdf", tag):
        answer = viewer.get(path)
        assert answer.content.startswith(b"%PDF") and answer["Content-Type"] == "application/pdf"
    assert stranger.get(tag).status_code == 404
    assert stranger.get(f"/cards/sheet.pdf?job={weld.pk}").status_code == 404


def words(answer):
    return " ".join(answered(answer))


def test_the_setup_sheet_has_the_readings_and_says_what_is_void(viewer, stranger, cast, entry):
    car = entry.vehicle
    require(car, cast.owner, "toe_front")
    take(car, "camber", cast.helper)
    text = words(viewer.get(f"/cars/{car.pk}/setup.pdf"))
    assert "Front toe (toe-in +) never taken" in text and "Camber (top out +) stands, not required" in text
    assert "by Tove" in text and "driver aboard" in text
    assert stranger.get(f"/cars/{car.pk}/setup.pdf").status_code == 404


def test_the_sheets_are_offered_where_they_are_wanted(viewer, cast, entry, weld):
    event, car = entry.event_id, entry.vehicle_id
    MemberHoursFactory(member=cast.helper)
    offered = {
        f"/events/{event}/": [
            f"/cards/sheet.pdf?event={event}", f"/pull/sheet.pdf?event={event}",
            f"/events/{event}/pack.pdf",
        ],
        f"/cars/{car}/?tab=papers": [f"/cars/{car}/setup.pdf", f"/cars/{car}/do-not-drive.pdf"],
        "/": ["/cards/sheet.pdf", f"/cards/sheet.pdf?person={cast.helper.pk}", "/pull/sheet.pdf"],
        f"/jobs/{weld.pk}/": [f"/cards/sheet.pdf?job={weld.pk}"],
    }  # fmt: skip
    for page, paths in offered.items():
        body = viewer.get(page).content.decode()
        for path in paths:
            assert f'href="{path}"' in body
            assert viewer.get(path).content.startswith(b"%PDF")
