"""The sheet as a download, and the command that writes the same file."""

from django.core.management import CommandError, call_command
from pytest import fixture, raises

from tests.factories import EntryFactory, EventFactory, VehicleFactory


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
