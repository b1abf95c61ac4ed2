"""Labels on paper: the code of each is read, nothing leaves its label, text stays text."""

from io import BytesIO

import pytest
import zxingcpp
from PIL import ImageDraw, ImageOps
from pypdf import PdfReader

from parts.engine.label_grid import BY_SLUG, GRIDS, lay, spot
from parts.models import Part, Place
from parts.pages.labels import labels_of
from parts.sheets.labels import calibration, labels
from tests.builds.paper.test_checklist import NASTY
from tests.paper.rendering import pages

PIXELS = 4  # a millimetre, at 101.6 dpi


def place(nth=0, **more):
    more = {"name": "Shelf B", "kind": "shelf", **more}
    return Place(code=f"7Q2M9XKD{nth:02d}", **more)


def part(nth=0, **more):
    return Part(code=f"WH4T7PQK{nth:02d}", **{"name": "Hub, front left", **more})


@pytest.fixture(autouse=True)
def address(settings):
    settings.PUBLIC_URL = "https://garage.example.org"


@pytest.mark.parametrize("grid", GRIDS, ids=lambda grid: grid.slug)
@pytest.mark.parametrize("dpi", [203, 300])
def test_the_code_of_every_kind_of_label_is_read(grid, dpi, tmp_path):
    # Long names, so that letters over a code would be seen.
    kinds = [place(1), place(2, kind="bin", name="wide W " * 8), place(3, kind="van")]
    rows = labels_of(kinds, [part(4), part(5, single=True, number="A-1", name="W" * 120)])
    found = [code.text for page in pages(labels(rows, grid), tmp_path, dpi) for code in zxingcpp.read_barcodes(page)]
    assert sorted(found) == sorted(row.address for row in rows)
    assert found[0].startswith("https://garage.example.org/c/")


@pytest.mark.parametrize("grid", GRIDS, ids=lambda grid: grid.slug)
def test_nothing_is_drawn_outside_the_labels(grid, tmp_path):
    rows = labels_of([place(name="W" * 60), place(name="wide W " * 8)], [
        part(name="x" * 120, number="9" * 60, single=True), part(name="<b>" * 40),
        part(name="Жук \U0001f697 " * 20), part(name="Wg" + "\n" * 50 + "end"),
    ])  # fmt: skip
    start = grid.each - 1
    sheets = pages(labels(rows, grid, start), tmp_path, 25.4 * PIXELS)
    for image, spots in zip(sheets, lay(grid, len(rows), start), strict=True):
        left = ImageOps.invert(image)
        for each in spots:
            box = [each.x, each.y, each.x + each.width, each.y + each.height]
            # One pixel for rounding.
            box = [round(side * PIXELS) + end for side, end in zip(box, (-1, -1, 1, 1), strict=True)]
            ImageDraw.Draw(left).rectangle(box, fill=0)
        assert left.getbbox() is None


def test_a_half_used_sheet_is_left_alone_where_it_is_used(tmp_path):
    grid = BY_SLUG["a4-21"]
    (image,) = pages(labels(labels_of([place()], []), grid, 8), tmp_path, 25.4 * PIXELS)
    ink = ImageOps.invert(image).getbbox()
    eighth = spot(grid, 8)
    assert ink[0] >= eighth.x * PIXELS and ink[1] >= eighth.y * PIXELS
    assert ink[2] <= (eighth.x + eighth.width) * PIXELS


def test_the_shift_moves_everything_right_and_down(tmp_path):
    grid = BY_SLUG["letter-10"]
    boxes = []
    for shift in ((0, 0), (3, 2)):
        (image,) = pages(calibration(grid, shift), tmp_path, 25.4 * PIXELS)
        # The outline of the first label, which the ruler does not reach.
        corner = ImageOps.invert(image.crop((0, 0, 60 * PIXELS, 30 * PIXELS)))
        boxes.append(corner.getbbox())
    assert boxes[1][0] - boxes[0][0] == pytest.approx(3 * PIXELS, abs=1)
    assert boxes[1][1] - boxes[0][1] == pytest.approx(2 * PIXELS, abs=1)


@pytest.mark.parametrize("grid", GRIDS, ids=lambda grid: grid.slug)
def test_the_calibration_page_numbers_every_label_and_has_100_mm(grid):
    reader = PdfReader(BytesIO(calibration(grid)))
    assert len(reader.pages) == 1
    words = reader.pages[0].extract_text().split()
    assert {str(number) for number in range(1, grid.each + 1)} <= set(words)
    assert "100" in words


@pytest.mark.parametrize("paper, size", [("a4", (595, 842)), ("letter", (612, 792))])
def test_the_page_is_the_sheets(paper, size):
    data = labels(labels_of([place()], []), BY_SLUG[f"{paper}-plain"])
    box = PdfReader(BytesIO(data)).pages[0].mediabox
    assert (round(box.width), round(box.height)) == size


@pytest.mark.parametrize("words", NASTY)
def test_text_of_anybodys_stays_text_and_the_code_below_is_plain(words):
    rows = labels_of([place(name=words[:60])], [part(name=words[:120], number=words[:60])])
    page = PdfReader(BytesIO(labels(rows, BY_SLUG["a4-8"]))).pages[0]
    assert "/XObject" not in page["/Resources"]
    assert "/Annots" not in page
    text = page.extract_text()
    assert "7Q2M9XKD00" in text and "WH4T7PQK00" in text
    if words.isascii() and words.isprintable() and len(words) < 12:
        assert words in text


def test_the_code_holds_the_address_alone_however_long_the_name():
    (row,) = labels_of([place(name="x" * 500)], [])
    assert row.address == "https://garage.example.org/c/7Q2M9XKD00/"
    assert len(row.address) <= 41


def test_the_same_rows_give_the_same_bytes():
    rows = labels_of([place()], [part(number) for number in range(40)])
    assert labels(rows, BY_SLUG["a4-21"]) == labels(rows, BY_SLUG["a4-21"])
    assert calibration(BY_SLUG["a4-21"]) == calibration(BY_SLUG["a4-21"])


def test_fonts_are_embedded():
    data = labels(labels_of([place()], [part()]), BY_SLUG["a4-8"])
    fonts = PdfReader(BytesIO(data)).pages[0]["/Resources"]["/Font"]
    own = [font.get_object() for font in fonts.values()]
    used = [font for font in own if "/FontDescriptor" in font]
    assert len(used) == 2
    for font in used:
        assert "/FontFile2" in font["/FontDescriptor"]
