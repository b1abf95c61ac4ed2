"""What holds for every sheet of the day: margins, pages, codes, paper, and text that stays text."""

from dataclasses import replace
from io import BytesIO
from pathlib import Path

import pytest
import zxingcpp
from PIL import ImageOps
from pypdf import PdfReader

from builds.packing.pages.sheet import PackSheet, PackTick
from builds.packing.sheet import pack_sheet
from builds.paper.pages.drive_tag import DriveTag
from builds.paper.pages.plan_sheet import PlanSheet, WallCar
from builds.paper.pages.setup_sheet import setup_rows
from builds.paper.pages.story_sheet import PrintedPhoto, SceneRows, StorySheet
from builds.paper.sheets.drive_tag import drive_tag
from builds.paper.sheets.plan import plan_sheet
from builds.paper.sheets.setup import setup_sheet
from builds.paper.sheets.story import story_sheet
from builds.plan.pages.day_list import Day, PlanLine
from builds.plan.pages.lanes import Lane, Mark
from builds.plan.pages.left_out import LeftOut
from builds.plan.pages.strip import DayMark, Edge, Strip
from builds.readings.pages.setup import SetupKind, SetupValue
from builds.shelf.pages.owed_sheet import OwedSheet
from builds.shelf.pages.want_sheet import WantSheet
from builds.shelf.sheet import owed_sheet, want_sheet
from builds.today.pages.card_sheet import CardRows, CardSheet, Hand, Tick
from builds.today.pages.pull_sheet import PullSheet, PullTick
from builds.today.sheets.cards import job_cards
from builds.today.sheets.pull import pull_sheet
from builds.verdict.pages import SheetHead
from tests.builds.paper.test_checklist import NASTY
from tests.paper.rendering import over_each_other, pages, placed_words

HEAD = SheetHead(
    "Quayside Lock-up", "a4", "Tue 2 Mar 2027 17:00", "Not fit to run: 3 things stand in the way.",
    "The maker's figure comes first.", "https://garage.example.org/cars/7/",
)  # fmt: skip


def cards(head, words, many):
    card = CardRows(
        words[:120], (words, words), "https://garage.example.org/jobs/12/", (words,), (words,),
        words, (Tick(words, words),), (Tick(words, words), Tick(words, mark="full")),
        (Tick(words, words),), (words,),
    )  # fmt: skip
    hands = tuple(Hand(f"{name} {words}"[:60], (card,) * many) for name in ("Ines", "Tove"))
    return job_cards(CardSheet(head, words, hands))


def pull(head, words, many):
    picks = (PullTick(words, words),) * many
    return pull_sheet(PullSheet(head, words, ((f"Shelf {words}", picks),), picks))


def owed(head, words, many):
    return owed_sheet(OwedSheet(head, ((f"Heron {words}", ((words, words),) * many),)))


def wanted(head, words, many):
    rows = ((f"Heron {words}", ((words, words),) * many),)
    return want_sheet(WantSheet(head, rows, rows))


def tag(head, words, many):
    return drive_tag(DriveTag(head, words[:40], words[:120], ((words[:200], words),) * many))


def pack(head, words, many):
    ticks = tuple(PackTick(words, words, number % 2 == 0) for number in range(many))
    sections = ((f"Spares {words}", ticks),)
    return pack_sheet(PackSheet(head, words, "Sat 6 Mar 05:00", "1 of 2", sections, (words,)))


def setup(head, words, many):
    value = SetupValue(words[:60], "-1.5°", "-1.5° ± 0.2°", "in")
    corner = SetupValue("Front left", "-1.5°", "at least -1.5°", "in", "fl", "as of Mon 1 Mar 20:00")
    more = "Mon 1 Mar 2027 20:00", words[:60]
    told = ((words, "12 mm"),), (("Floor", words),), words
    beside = SetupKind("own", f"Camber {words}", "void", words, True, *more, (value,) * many, *told)
    wheel = SetupKind("camber", "Camber (top out +)", "stands", "", True, *more, (corner,), *told, tool=words[:60])
    return setup_sheet(setup_rows(head, words[:40], words[:120], (*(wheel,) * many, beside, beside), ()))


def plan(head, words, many):
    name = words[:40]
    told = PlanLine(7, "18:30", "20:00", "1 h 30", 90, words[:120], "", name, "green", words[:60], where=words[:60])
    far = tuple(Day(f"2027-03-{day:02}", "", f"Day {day}", f"{day}", (told,) * many) for day in range(3, 31))
    kinds = ((0, "safety"), (5, "wanted"), (50, "needed"))
    blocks = tuple(Mark(x, 4, words, kind=kind, tape="green", car=name) for x, kind in kinds)
    bars = tuple(Mark(x, 3, words, words) for x in (0, 30, 96))
    lanes = tuple(Lane(words, sort, marks=bars if sort != "person" else blocks) for sort in ("person", "cure", "hold"))
    day = DayMark(0, 8, "2027-03-02", "Tu", words, words, words)
    strip = Strip(0, 0, lanes, (day,), ((40, 2),), (Edge(45, 0, words), Edge(60, 20, words)), "", "")
    left = (LeftOut(words, "", name, "green", "needed", words, False),) * many
    cars = (WallCar("W", name, "green", (words, words)),)
    return plan_sheet(PlanSheet(head, words[:200], (words,), cars, strip, far, ((words, words),) * many, left))


def story(head, words, many):
    lost = PrintedPhoto(Path("lost.jpg"), (1600, 1200), "Before", words[:200], words[:60])
    scene = SceneRows(words[:120], (lost, lost), (lost,))
    return story_sheet(StorySheet(head, words[:40], words[:120], "", ((words[:40], (scene,) * max(1, many // 8)),)))


SHEETS = {
    "story": story,
    "cards": cards,
    "pull": pull,
    "owed": owed,
    "wanted": wanted,
    "tag": tag,
    "pack": pack,
    "setup": setup,
    "plan": plan,
}
every_sheet = pytest.mark.parametrize("draw", SHEETS.values(), ids=SHEETS)


def read(data):
    reader = PdfReader(BytesIO(data))
    return reader, [" ".join(page.extract_text().split()) for page in reader.pages]


@every_sheet
@pytest.mark.parametrize("paper, size", [("a4", (595, 842)), ("letter", (612, 792))])
def test_the_paper_is_the_garages(draw, paper, size):
    reader, _ = read(draw(replace(HEAD, paper=paper), "Weld the arm", 2))
    for page in reader.pages:
        assert (round(page.mediabox.width), round(page.mediabox.height)) == (size[::-1] if draw is plan else size)


@every_sheet
def test_verdict_moment_and_pages_are_told(draw):
    reader, texts = read(draw(HEAD, "Weld the arm", 40))
    for number, text in enumerate(texts, start=1):
        assert f"page {number} of {len(reader.pages)}" in text
        assert "Not fit to run: 3 things stand in the way." in text
        assert "omputed Tue 2 Mar 2027 17:00" in text
        assert "The maker's figure comes first." in text
    assert "Weld the arm" in texts[0]


@every_sheet
@pytest.mark.parametrize("words", NASTY)
def test_text_of_anybodys_stays_text(draw, words):
    reader, texts = read(draw(HEAD, words, 2))
    for page in reader.pages:
        assert "/XObject" not in page["/Resources"]
        assert "/Annots" not in page
    if words.isascii() and words.isprintable() and len(words) < 40:
        assert words in texts[0]


@every_sheet
@pytest.mark.parametrize("dpi", [203, 300])
def test_the_code_leads_back(draw, dpi, tmp_path):
    first = pages(draw(HEAD, "Weld the arm", 1), tmp_path, dpi)[0]
    found = {code.text for code in zxingcpp.read_barcodes(first)}
    assert HEAD.address in found
    assert (draw is cards) == ("https://garage.example.org/jobs/12/" in found)


@every_sheet
@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_nothing_is_printed_within_ten_millimetres_of_the_edge(draw, paper, tmp_path):
    data = draw(replace(HEAD, paper=paper), "wide W " * 30, 6)
    for image in pages(data, tmp_path, 50.8):
        left, top, right, bottom = ImageOps.invert(image).getbbox()
        edge = 20 - 1  # 2 pixels a millimetre, one of them for rounding
        assert left >= edge and top >= edge
        assert right <= image.width - edge and bottom <= image.height - edge


@every_sheet
@pytest.mark.parametrize("said", ["wide W " * 30, "W" * 120])
def test_no_words_lie_over_each_other_however_long_they_are(draw, said, tmp_path):
    for number, page in enumerate(placed_words(draw(HEAD, said, 6), tmp_path), start=1):
        assert len(page) > 10
        assert over_each_other(page) == [], number


@every_sheet
def test_the_same_rows_give_the_same_bytes(draw):
    assert draw(HEAD, "Weld the arm", 3) == draw(HEAD, "Weld the arm", 3)


@every_sheet
def test_fonts_are_embedded(draw):
    fonts = read(draw(HEAD, "Weld", 1))[0].pages[0]["/Resources"]["/Font"]
    used = [font.get_object() for font in fonts.values()]
    own = [font for font in used if "/FontDescriptor" in font]
    assert own
    for font in own:
        assert "/FontFile2" in font["/FontDescriptor"]


@pytest.mark.parametrize("draw, heading", [(pull, "Shelf long"), (owed, "Heron long")])
def test_200_rows_flow_over_pages_under_their_heading(draw, heading):
    _, texts = read(draw(HEAD, "long " * 18, 200))
    assert len(texts) > 10
    for text in texts:
        assert heading in text or "Not on the shelf" in text or "Stays here" in text
    assert sum(text.count("long " * 17) for text in texts) >= 200


def test_50_cards_each_keep_their_person_over_them():
    _, texts = read(cards(HEAD, "Weld the arm", 50))
    assert all("Ines Weld" in text or "Tove Weld" in text for text in texts)
    assert "".join(texts).count("found on the way") == 100


@pytest.mark.parametrize("note", ["x\n" * 2000, "W" * 4000, "word " * 800, "\n" * 4000])
def test_a_card_of_any_length_is_printed_whole(note):
    card = CardRows(
        "Weld", ("Heron",), "https://garage.example.org/jobs/12/", (), (), note, (),
        tuple(Tick(f"part {number}") for number in range(100)), (), (),
    )  # fmt: skip
    _, texts = read(job_cards(CardSheet(HEAD, "Cards", (Hand("Ines", (card,)),))))
    text = " ".join(texts)
    assert "part 99" in text and text.count("W") >= note.count("W")
    assert text.count("word") == note.count("word")


def test_the_tag_says_every_reason_it_has_room_for_and_how_many_more():
    reasons = tuple((f"Reason {number}.", "Sign.") for number in range(11))
    (text,) = read(drive_tag(DriveTag(HEAD, "Heron", "coupe", reasons)))[1]
    assert text.startswith("DO NOT DRIVE Heron coupe Reason 0.")
    assert "Reason 7." in text and "Reason 8." not in text
    assert "And 3 more, behind the code." in text


def test_a_tag_without_a_reason_has_lines_to_write_one_on():
    (text,) = read(drive_tag(DriveTag(HEAD, "Heron", "", ())))[1]
    assert "DO NOT DRIVE" in text and "Why, and who says so:" in text


def test_a_tag_is_read_without_colour(tmp_path):
    (image,) = pages(tag(HEAD, "Weld", 1), tmp_path, 50.8)
    edge = image.crop((2 * 12, 2 * 60, 2 * 20, 2 * 200))
    histogram = edge.histogram()
    dark, light = sum(histogram[:110]), sum(histogram[200:])
    assert dark > 0.25 * sum(histogram) and light > 0.25 * sum(histogram)


def test_a_setup_sheet_says_what_is_void_what_is_wanted_and_leaves_room_for_the_next():
    kind = SetupKind(
        "toe", "Front toe", "void", "Void since “Rack out” was finished Mon 1 Mar 20:00.", False,
        "Sun 28 Feb 2027 11:00", "Ines", (SetupValue("Left", "1.2 mm", "1 mm ± 0.2 mm", "in"),),
        (("Total toe", "2.4 mm"),), (("Driver", "driver aboard"),), "Level floor.", tool="toe plates",
    )  # fmt: skip
    (text,) = read(setup_sheet(setup_rows(HEAD, "Heron", "", (kind,), ())))[1]
    for said in (
        "Setup of Heron", "Front toe: void, measure again, not required Left, wanted 1 mm ± 0.2 mm 1.2 mm",
        "Void since",
        "Taken Sun 28 Feb 2027 11:00 by Ines: Front toe (toe plates).", "Front toe: Driver: driver aboard.",
        "Front toe: Level floor.",
    ):  # fmt: skip
        assert said in text
    assert "Total toe" not in text  # what does not hold has nothing that follows from it


def test_an_empty_sheet_says_so():
    for data, words in (
        (owed_sheet(OwedSheet(HEAD, ())), "Nothing is owed"),
        (want_sheet(WantSheet(HEAD, (), ())), "Nothing is to be bought"),
        (pull_sheet(PullSheet(HEAD, "Pull", (), ())), "Nothing on the shelf is wanted."),
        (job_cards(CardSheet(HEAD, "Cards", ())), "Nothing is to be done."),
        (pack_sheet(PackSheet(HEAD, "Climb", "Sat", "", (), ())), "No list was made yet"),
        (setup_sheet(setup_rows(HEAD, "Heron", "", (), ())), "Nothing was read yet"),
        (plan_sheet(PlanSheet(HEAD, "Nothing to do.", (), (), None, (), (), ())), "Nothing is planned."),
    ):
        assert words in read(data)[1][0]


@every_sheet
@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("words", ["Weld", "W" * 120])
def test_a_crowded_head_leaves_room_below_it(draw, paper, words):
    # Three groups of names as long as a head lets them be.
    verdict = " ".join(f"{group}: {'W' * 90} and 40 more." for group in ("Stop", "Not", "Fit"))
    head = replace(HEAD, paper=paper, verdict=verdict, garage="W" * 80)
    _, texts = read(draw(head, words, 4))
    assert f"page 1 of {len(texts)}" in texts[0]


def test_a_reading_stands_whole_on_one_page_of_the_setup_sheet():
    values = tuple(SetupValue(f"{corner} of its own", "1 mm", "", "in") for corner in ("One", "Two", "Three", "Four"))
    kinds = tuple(
        SetupKind(f"kind-{number}", f"Kind {number}", "stands", "", True, "", "", values, (), (), "")
        for number in range(50)
    )
    _, texts = read(setup_sheet(setup_rows(HEAD, "Heron", "", kinds, ())))
    assert len(texts) > 2
    for text in texts:
        assert text.count("One of its own") == text.count("Four of its own") == text.count("Kind ")
