"""`manage.py sheet`: every kind, by names, and what it says when a name finds nothing."""

import pytest
from django.core.management import CommandError, call_command

from builds.management.sheet_kinds import KINDS
from builds.work.models.job import Job
from builds.work.models.link import Link
from tests.factories import EntryFactory, EventFactory, GarageFactory, JobFactory, VehicleFactory
from tests.parts.factories import PartFactory, PlaceFactory


@pytest.fixture
def heron(cast, now):
    # The stranger's garage, so that there is one.
    cast.stranger.garage.delete()
    car = VehicleFactory(garage=cast.garage, name="Heron")
    EntryFactory(event=EventFactory(garage=cast.garage, name="Saltmarsh Hill Climb"), vehicle=car)
    JobFactory(vehicle=car, title="Weld the arm")
    PlaceFactory(garage=cast.garage, name="Shelf B")
    PartFactory(garage=cast.garage, name="Hub nut", code="WH4T7PQK22")
    return car


@pytest.fixture
def write(tmp_path):
    def written(*words):
        file = tmp_path / "sheet.pdf"
        call_command("sheet", *words, "-o", str(file))
        return file.read_bytes()

    return written


SAID = [
    ("checklist", "Heron"), ("checklist", "heron", "saltmarsh hill climb"), ("job-cards",),
    ("job-cards", "--person", "Tove"), ("job-cards", "--event", "Saltmarsh Hill Climb"),
    ("job-cards", "--job", "weld the arm"), ("pull",), ("pull", "--person", "Tove"),
    ("do-not-drive", "Heron"), ("owed",), ("owed", "Heron"), ("wanted",), ("pack",),
    ("pack", "Saltmarsh Hill Climb"), ("setup", "Heron"), ("story", "Heron"), ("plan",), ("labels", "--places"),
    ("labels", "--place", "Shelf B", "--part", "Hub nut", "--part", "wh4t7pqk22"),
    ("labels", "--calibrate", "--on", "letter-30"),
]  # fmt: skip


@pytest.mark.parametrize("words", SAID, ids=" ".join)
def test_every_kind_is_written(write, heron, words):
    assert write(*words).startswith(b"%PDF")


def test_why_it_goes_by_an_older_plan_is_said_beside_the_sheet(write, heron, capsys):
    weld, paint = Job.objects.get(), JobFactory(vehicle=heron, title="Paint it")
    for before, after in ((weld, paint), (paint, weld)):
        Link.objects.create(before=before, after=after)
    assert write("job-cards").startswith(b"%PDF")
    assert "in a circle" in capsys.readouterr().err


def test_no_kind_is_left_out_here():
    assert {words[0] for words in SAID} == set(KINDS)


@pytest.mark.parametrize(
    "words, path",
    [
        (("setup", "Heron"), "/cars/{car}/setup.pdf"),
        (("do-not-drive", "Heron"), "/cars/{car}/do-not-drive.pdf"),
        (("owed",), "/owed/sheet.pdf"),
        (("wanted",), "/wants/sheet.pdf"),
        (("job-cards",), "/cards/sheet.pdf"),
        (("pull", "--event", "Saltmarsh Hill Climb"), "/pull/sheet.pdf?event={event}"),
        (("pack",), "/events/{event}/pack.pdf"),
        (("plan",), "/plan/sheet.pdf"),
    ],
)
def test_it_writes_what_the_page_answers(write, viewer, heron, settings, words, path):
    settings.PUBLIC_URL = "https://garage.example"  # else a page's codes lead to where it was opened
    event = heron.entries.get().event_id
    assert write(*words) == viewer.get(path.format(car=heron.pk, event=event)).content


@pytest.mark.parametrize(
    "words, sentence",
    [
        (("setup", "Newt"), "Quayside Lock-up has no car called Newt: there is Heron."),
        (("checklist", "Newt"), "Newt is not entered for anything ahead."),
        (("pack", "Moon"), "No event called Moon is ahead: there is Saltmarsh Hill Climb."),
        (("pull", "--person", "Newt"), "Nobody in Quayside Lock-up is called Newt: there is Ines"),
        (("pull", "--job", "9" * 30), "No open job is called 9999"),
        (("labels", "--place", "Attic"), "There is no place called Attic: there is Shelf B."),
        (("labels", "--part", "Cog"), "There is no part called Cog: there is Hub nut."),
        (("labels",), "Which labels? Say --place, --places or --part."),
        (("labels", "--places", "--start", "11"), "This sheet has labels 1 to 10."),
        (("labels", "--places", "--on", "a9"), "There is no sheet called a9: there is a4-plain"),
        (("owed", "--garage", "Barn"), "There is no garage called Barn: there is Quayside"),
        (("sandwich",), "invalid choice: 'sandwich'"),
        (("pull", "--job", "x", "--event", "y"), "not allowed with argument"),
    ],
    ids=lambda words: " ".join(words) if isinstance(words, tuple) else "",
)
def test_what_finds_nothing_is_told(write, heron, words, sentence):
    with pytest.raises(CommandError) as told:
        write(*words)
    assert sentence in str(told.value)


def test_two_garages_must_be_told_apart(write, heron):
    GarageFactory(name="The barn")
    with pytest.raises(CommandError, match="more than one garage: say --garage, Quayside Lock-up"):
        write("owed")
    assert write("owed", "--garage", "the barn").startswith(b"%PDF")


def test_two_of_one_name_are_not_chosen_between(write, cast, heron):
    PartFactory(garage=cast.garage, name="hub nut")
    with pytest.raises(CommandError, match="More than one is called"):
        write("labels", "--part", "Hub nut")


def test_a_file_that_cannot_be_written_is_told(heron):
    with pytest.raises(CommandError, match="cannot be written: No such file or directory"):
        call_command("sheet", "owed", "-o", "/no/such/folder/owed.pdf")


def test_without_a_garage_there_is_nothing_to_print(db):
    with pytest.raises(CommandError, match="There is no garage yet"):
        call_command("sheet", "owed")
