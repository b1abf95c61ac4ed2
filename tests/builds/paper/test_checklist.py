"""The pre-event sheet: what it says, how it flows, and that text of anybody's stays text."""

import shutil
import subprocess
from datetime import timedelta
from io import BytesIO

import pytest
from PIL import Image, ImageOps
from pypdf import PdfReader

from builds.paper.pages.checklist import checklist_rows
from builds.paper.sheets.checklist import checklist
from builds.steps.engine.cautions import cautions_for
from builds.work.models.job import Job
from tests.builds.readings.reading_kit import require
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
    "10\u00a0mm\tby\u20093",
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
    arm = JobFactory(vehicle=entry.vehicle, title="Weld the arm", rank="safety", systems=["steering"])
    HoldPointFactory(job=arm, what="Weld looked at")
    _, text = read(entry)
    assert "Not fit to run: 3 things stand in the way" in text
    order = [text.index(f"Open {rank} job") for rank in ("safety", "needed", "wanted")]
    assert order == sorted(order)
    assert "Weld looked at" in text and "The car is on stands" in text
    assert "Computed Tue 2 Mar 2027 17:00" in text
    cautions = cautions_for(["steering"])
    assert cautions
    for caution in cautions:
        assert caution.text in " ".join(text.split())


def test_it_is_signed_beside_its_verdict_and_no_empty_list_is_printed(entry):
    reader, text = read(entry)
    first = reader.pages[0].extract_text()
    assert first.index("Not fit to run") < first.index("Second pair of eyes") < first.index("What stands in the way")
    assert text.count("Prepared by") == 1
    assert "Done so far" not in text and "Nothing." not in text


def test_only_a_job_that_is_in_hand_is_said_to_be(cast, entry):
    """Reasons name rows of other kinds by their keys too: a car's may be that of a job."""
    fields = {"title": "Weld the arm", "rank": "safety", "systems": ["steering"], "state": "in_hand"}
    JobFactory(pk=entry.vehicle_id, vehicle=entry.vehicle, **fields)
    require(entry.vehicle, cast.owner, "camber", "toe_front")
    text = " ".join(read(entry)[1].split())
    assert "Measure it." in text
    assert text.count("Now in hand") == 1


def test_what_was_signed_says_when_it_was_signed(cast, entry):
    job = JobFactory(vehicle=entry.vehicle, title="Bleed", state="signed", finished_at=NOW - timedelta(hours=2))
    Job.objects.filter(pk=job.pk).update(signed_by=cast.helper, signed_at=NOW - timedelta(hours=1))
    assert "signed by Tove, Tue 2 Mar 16:00" in " ".join(read(entry)[1].split())


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
    assert "New rods" in text and "signed by Tove" in text
    assert "Old brakes" not in text


def test_200_jobs_flow_over_pages_that_are_counted_and_headed(entry):
    for number in range(200):
        JobFactory(vehicle=entry.vehicle, title=f"Job number {number} " + "long " * 18)
    reader, text = read(entry)
    assert len(reader.pages) > 10
    for number, page in enumerate(reader.pages, start=1):
        words = page.extract_text()
        assert f"page {number} of {len(reader.pages)}" in words
        assert "Heron for Saltmarsh Hill Climb" in words
        assert "Not fit to run: 201 things stand in the way" in words
        assert "omputed Tue 2 Mar 2027 17:00" in words
        if "Job number" in words:
            assert "What stands in the way" in words
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


def test_what_people_type_beyond_latin_is_read_and_the_rest_is_a_box(entry):
    entry.vehicle.what = "½″ Ω µ ☐ Жук 10\u00a0mm \U0001f697 wi\u200bde \u202eleft"
    entry.vehicle.save()
    assert "½″ Ω µ ☐ Жук 10 mm □ wide left" in read(entry)[1]


def test_do_not_drive_stands_on_every_page(cast, entry):
    for number in range(40):
        JobFactory(vehicle=entry.vehicle, title=f"Job {number}", rank="wanted")
    assert "rive" not in read(entry)[1].replace("driveable", "").replace("driven", "")
    JobFactory(vehicle=entry.vehicle, rank="safety", systems=["brakes"], state="in_hand")
    reader, _ = read(entry)
    assert "Do not drive" in reader.pages[0].extract_text()
    assert len(reader.pages) > 1
    for page in reader.pages[1:]:
        assert "DO NOT DRIVE." in page.extract_text()


def test_what_is_in_the_way_says_how_it_stands(entry):
    JobFactory(
        vehicle=entry.vehicle,
        title="Fit the fan",
        state="held",
        state_note="no bolts",
        rank="needed",
    )
    text = " ".join(read(entry)[1].split())
    assert "Open needed job: “Fit the fan”" in text
    assert "Do it. Now held: no bolts." in text


def test_nothing_in_the_way_is_still_not_known_to_be_fit(entry):
    entry.vehicle.state = "driveable"
    entry.vehicle.save()
    text = " ".join(read(entry)[1].split())
    assert "Not known to be fit: nobody has said which readings and gear it must have" in text
    assert "What stands in the way" not in text


def test_nothing_is_printed_within_ten_millimetres_of_the_edge(entry, tmp_path):
    assert shutil.which("pdftoppm"), "poppler-utils is not installed"
    for number in range(45):
        JobFactory(vehicle=entry.vehicle, title=f"Job {number}", rank="safety", state="in_hand")
    (tmp_path / "sheet.pdf").write_bytes(checklist(checklist_rows(entry, NOW)))
    subprocess.run(
        ["pdftoppm", "-r", "50.8", "-gray", "sheet.pdf", "page"],  # noqa: S607 (found above)
        cwd=tmp_path,
        check=True,
    )
    pages = sorted(tmp_path.glob("page*.pgm"))
    assert len(pages) > 2
    for page in pages:
        with Image.open(page) as image:
            left, top, right, bottom = ImageOps.invert(image.convert("L")).getbbox()
            edge = 20 - 1  # 2 pixels a millimetre, one of them for rounding
            assert left >= edge and top >= edge
            assert right <= image.width - edge and bottom <= image.height - edge
