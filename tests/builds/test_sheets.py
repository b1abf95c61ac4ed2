"""The sheet as a download, and the command that writes the same file."""

from django.core.management import CommandError, call_command
from pytest import fixture, mark, raises

from tests.factories import EntryFactory, EventFactory, JobFactory, VehicleFactory


@fixture
def entry(cast, now):
    car = VehicleFactory(garage=cast.garage, name='He"ron/../x')
    return EntryFactory(event=EventFactory(garage=cast.garage), vehicle=car)


def test_a_viewer_may_print_and_the_name_is_safe(viewer, entry):
    answer = viewer.get(f"/entries/{entry.pk}/sheet.pdf")
    assert answer.content.startswith(b"%PDF")
    assert answer["Content-Type"] == "application/pdf"
    assert (
        answer["Content-Disposition"]
        == f'inline; filename="heronx-{entry.event.name.lower().replace(" ", "-")}.pdf"'
    )


def test_the_command_writes_the_same_bytes(viewer, entry, tmp_path, capsys):
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


@mark.parametrize("asked", ["", "?job={job}", "?person={person}", "?event={event}", "?job=x"])
def test_a_pull_list_for_a_job_an_evening_a_person_or_an_event(viewer, cast, entry, asked):
    asked = asked.format(
        job=JobFactory(vehicle=entry.vehicle).pk, person=cast.helper.pk, event=entry.event_id
    )
    assert viewer.get(f"/pull/sheet.pdf{asked}").content.startswith(b"%PDF")
    body = viewer.get(f"/pull/{asked}").content.decode()
    assert f'href="/pull/sheet.pdf{asked if "x" not in asked else ""}"' in body


@mark.parametrize("name", ["job", "person", "event"])
def test_a_pull_list_for_another_garages_is_not_there(stranger, cast, entry, name):
    rows = {"job": JobFactory(vehicle=entry.vehicle), "person": cast.helper, "event": entry.event}
    assert stranger.get(f"/pull/sheet.pdf?{name}={rows[name].pk}").status_code == 404
