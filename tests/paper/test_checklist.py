"""The pre-event sheet: what it says, how it flows, and that text of anybody's stays text."""

from datetime import timedelta
from io import BytesIO

import pytest
from pypdf import PdfReader

from builds.engine.cautions import cautions_for
from builds.loaders.checklist import checklist_rows
from builds.sheets.checklist import checklist
from tests.factories import (
    NOW,
    EntryFactory,
    EventFactory,
    HoldPointFactory,
    JobFactory,
    VehicleFactory,
)

NASTY = [
    '<img src="/etc/passwd"/>',
    '<a href="javascript:alert(1)">x</a>',
    "</para>",
    "<b>",
    "&amp; & <",
    '<font color="[[[not a colour]]]">',
    "<onDraw name=x/>",
    "½″ Ω µ ☐ Жук \U0001f697 zero\u200bwidth \u202eright to left",
    "\x07\x1b[31m",
    "x" * 120,
]


@pytest.fixture
def entry(cast, now):
    event = EventFactory(garage=cast.garage, name="Saltmarsh Hill Climb")
    car = VehicleFactory(garage=cast.garage, name="Heron", state="stands")
    return EntryFactory(event=event, vehicle=car)


def read(entry, at=NOW):
    data = checklist(checklist_rows(entry, at))
    reader = PdfReader(BytesIO(data))
    return reader, "\n".join(page.extract_text() for page in reader.pages)


def test_it_says_the_verdict_with_every_reason_safety_first(cast, entry):
    JobFactory(vehicle=entry.vehicle, title="Polish the mirror", rank="wanted")
    JobFactory(vehicle=entry.vehicle, title="Fit the horn", rank="needed")
    arm = JobFactory(
        vehicle=entry.vehicle, title="Weld the arm", rank="safety", systems=["steering"]
    )
    HoldPointFactory(job=arm, what="Weld looked at")
    _, text = read(entry)
    assert "Not fit to run: 3 things stand in the way" in text
    order = [text.index(f"Open {rank} job") for rank in ("safety", "needed", "wanted")]
    assert order == sorted(order)
    assert "Weld looked at" in text and "The car is on stands" in text
    assert "computed Tue 2 Mar 17:00" in text
    cautions = cautions_for(["steering"])
    assert cautions
    for caution in cautions:
        assert caution.text in " ".join(text.split())


def test_a_lowered_rank_is_printed_with_its_reason(entry):
    JobFactory(
        vehicle=entry.vehicle,
        title="Paint the caliper",
        rank="wanted",
        systems=["brakes"],
        lowered_because="colour only, nothing is opened",
    )
    assert "colour only, nothing is opened" in read(entry)[1]


def test_what_was_done_since_the_last_event_and_who_signed(cast, entry):
    gone = EventFactory(
        garage=cast.garage, name="Kiln Lane", gates_at=NOW - timedelta(days=9),
        ends_at=NOW - timedelta(days=8),
    )  # fmt: skip
    EntryFactory(event=gone, vehicle=entry.vehicle)
    for title, days in [("Old brakes", 20), ("New rods", 3)]:
        JobFactory(
            vehicle=entry.vehicle, title=title, state="signed", signed_by=cast.helper,
            signed_at=NOW, finished_at=NOW - timedelta(days=days),
        )  # fmt: skip
    text = read(entry)[1]
    assert "Done since Kiln Lane" in text
    assert "New rods" in text and "signed by Odd" in text
    assert "Old brakes" not in text


def test_200_jobs_flow_over_pages_that_are_counted_and_headed(entry):
    for number in range(200):
        JobFactory(vehicle=entry.vehicle, title=f"Job number {number} " + "long " * 18)
    reader, text = read(entry)
    assert len(reader.pages) > 10
    for number, page in enumerate(reader.pages, start=1):
        words = page.extract_text()
        assert f"page {number} of {len(reader.pages)}" in words
        assert "Heron · Saltmarsh Hill Climb" in words
    assert "Job number 199" in text


@pytest.mark.parametrize("paper, size", [("a4", (595, 842)), ("letter", (612, 792))])
def test_the_paper_is_the_garages(entry, paper, size):
    garage = entry.event.garage
    garage.paper = paper
    garage.save()
    box = read(entry)[0].pages[0].mediabox
    assert (round(box.width), round(box.height)) == size


def test_the_same_rows_give_the_same_bytes(entry):
    rows = checklist_rows(entry, NOW)
    assert checklist(rows) == checklist(rows)


@pytest.mark.parametrize("words", NASTY)
def test_text_of_anybodys_stays_text(entry, words):
    entry.vehicle.what = words
    entry.vehicle.save()
    JobFactory(vehicle=entry.vehicle, title=words, state_note=words)
    reader, text = read(entry)
    for page in reader.pages:
        resources = page["/Resources"]
        assert "/XObject" not in resources
        assert "/Annots" not in page
    if words.isascii() and words.isprintable() and len(words) < 40:
        assert words in text


def test_fonts_are_embedded(entry):
    fonts = read(entry)[0].pages[0]["/Resources"]["/Font"]
    own = [font.get_object() for font in fonts.values()]
    names = {font["/BaseFont"] for font in own if "/FontDescriptor" in font}
    assert any("Bold" in name or "Bd" in name for name in names)
    for font in own:
        if "/FontDescriptor" in font:
            assert "/FontFile2" in font["/FontDescriptor"]
