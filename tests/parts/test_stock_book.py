"""The shelf as a file: every part with its places, guarded cells, costs for the owner alone."""

import csv
import io

import pytest
from openpyxl import load_workbook

from parts.actions import stock
from parts.actions.places import house_place
from parts.engine.table import read_csv
from parts.forms.workbook import read_workbook
from tests.conftest import queries
from tests.factories import NOW
from tests.parts.factories import PartFactory, PlaceFactory

pytestmark = pytest.mark.usefixtures("now")
CSV, XLSX = "/shelf/book.csv", "/shelf/book.xlsx"
NASTY = [
    *(
        "=1+1",
        "+1",
        "-1+2",
        "@SUM(1)",
        "＝1",
        "=cmd|' /C calc'!A0",
        '=HYPERLINK("http://x.example")',
    ),
    *("'71", "0012", "1E5", "+44 1234", "-12.5", "a;b,c\td", 'quote"quote'),
]


def received(cast, part, place, quantity=1):
    supplier = house_place(cast.garage, "supplier")
    stock.move(part, "receive", quantity, supplier, place, by=cast.owner, at=NOW)


def table(client, path=CSV):
    data = client.get(path).content
    return read_csv(data) if path == CSV else read_workbook(data)


@pytest.fixture
def hubs(cast):
    part = PartFactory(
        garage=cast.garage, name="Front hubs", number="0012", systems=["wheels", "brakes"],
        cost_minor=8405, supplier="Mill Ltd", provenance="the blue shell", low_level=2,
        note="two\r\nlines", condition="good",
    )  # fmt: skip
    received(cast, part, PlaceFactory(garage=cast.garage, name="Shelf A"), 3)
    received(cast, part, PlaceFactory(garage=cast.garage, name="Shelf B"), 1)
    return part


@pytest.mark.parametrize("path", [CSV, XLSX])
def test_a_row_for_each_part_and_place(owner, cast, hubs, path):
    PartFactory(garage=cast.garage, name="Zinc washer", code="ABCDEFGHJK", single=True)
    found = table(owner, path)
    assert found.headings == (
        "code", "name", "number", "kind", "unit", "condition", "quantity", "place", "systems",
        "cost", "supplier", "provenance", "low level", "note",
    )  # fmt: skip
    same = (hubs.code, "Front hubs", "0012", "counted", "piece", "good")
    more = ("wheels; brakes", "84.05", "Mill Ltd", "the blue shell", "2", "two\nlines")
    assert [cells for _, cells in found.rows] == [
        (*same, "3", "Shelf A", *more),
        (*same, "1", "Shelf B", *more),
        ("ABCDEFGHJK", "Zinc washer", "", "one of a kind", "piece", "new", "0", *[""] * 7),
    ]


@pytest.mark.parametrize("who", ["helper", "viewer"])
@pytest.mark.parametrize("path", [CSV, XLSX])
def test_only_the_owner_reads_what_it_cost(cast, hubs, who, path):
    found = table(cast.client(who), path)
    assert "cost" not in found.headings
    assert not any("84.05" in cells for _, cells in found.rows)


@pytest.mark.parametrize("text", NASTY)
def test_no_cell_is_a_formula_and_every_text_comes_back(owner, cast, text):
    from garage.engine.cells import unguarded

    PartFactory(garage=cast.garage, name=text, number=text)
    raw = owner.get(CSV).content.decode("utf-8-sig")
    cells = list(csv.reader(io.StringIO(raw, newline="")))[1]
    wanted = "'" + text if text[0] in "=+-@＝'" else text
    assert cells[1:3] == [wanted, wanted]
    sheet = load_workbook(io.BytesIO(owner.get(XLSX).content)).active
    assert [(cell.value, cell.data_type) for cell in sheet[2][1:3]] == [(wanted, "s")] * 2
    for path in (CSV, XLSX):
        assert unguarded(table(owner, path).rows[0][1][2]) == text


def test_lines_end_as_the_standard_says_and_the_file_has_a_name(owner, hubs):
    answer = owner.get(CSV)
    assert answer.content.count(b"\r\n") == 3
    assert answer["Content-Disposition"] == 'attachment; filename="shelf-2027-03-02.csv"'


def test_a_place_whose_name_is_there_twice_goes_by_its_code(owner, cast):
    part = PartFactory(garage=cast.garage)
    shelf = PlaceFactory(garage=cast.garage, name="Door")
    PlaceFactory(garage=cast.garage, name="door", kind="bin")
    received(cast, part, shelf)
    assert table(owner).rows[0][1][7] == shelf.code


def test_nobody_gets_another_garages_shelf(stranger, hubs):
    assert len(stranger.get(CSV).content.splitlines()) == 1


def test_as_many_queries_for_fifty_as_for_one(owner, cast, hubs):
    first = queries(owner, CSV), queries(owner, XLSX)
    shelf = PlaceFactory(garage=cast.garage)
    for part in PartFactory.create_batch(40, garage=cast.garage):
        received(cast, part, shelf)
    assert (queries(owner, CSV), queries(owner, XLSX)) == first


def test_characters_that_a_workbook_cannot_hold_break_nothing(owner, cast):
    PartFactory(garage=cast.garage, name="bell\x07")
    assert table(owner, XLSX).rows[0][1][1] == "bell\N{REPLACEMENT CHARACTER}"
