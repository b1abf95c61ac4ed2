"""Workbooks that are traps, or broken: one sentence, and no time or memory spent on them."""

import io
import zipfile

import pytest
from openpyxl import Workbook

from parts.engine.table import TableError
from parts.forms.workbook import UNREADABLE, read_workbook

SHEET = "xl/worksheets/sheet1.xml"


def workbook(*rows):
    book = Workbook()
    for row in rows:
        book.active.append(row)
    file = io.BytesIO()
    book.save(file)
    return file.getvalue()


def altered(data, name, change):
    """The same package with one member changed."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(out, "w", 8) as new:
        for member in old.infolist():
            text = old.read(member)
            new.writestr(member.filename, change(text) if member.filename == name else text)
    return out.getvalue()


PLAIN = workbook(["name", "quantity"], ["Nut", 4])


MANY = "Line 20002: there are more than 20,000 rows: split the file."
LONG = "Line 2, column 1: more than 4,000 characters; is a quote left open?"


def refused(data):
    with pytest.raises(TableError) as wrong:
        read_workbook(data)
    return str(wrong.value)


def test_a_plain_one_is_read():
    table = read_workbook(PLAIN)
    assert (table.headings, table.rows) == (("name", "quantity"), ((2, ("Nut", "4")),))


def test_one_that_unpacks_to_a_mountain():
    padded = altered(PLAIN, SHEET, lambda text: text + b" " * (65 * 1024 * 1024))
    assert len(padded) < 200_000
    assert refused(padded) == "The workbook unpacks to more than 64 MB: save it as CSV."


def test_one_that_declares_entities():
    bomb = b'<!DOCTYPE x [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;">]>'
    data = altered(PLAIN, SHEET, lambda text: bomb + text)
    assert refused(data) == UNREADABLE


@pytest.mark.parametrize(("text", "times"), [(b"<row/>", 3_000_001), (b"<c><v>1</v></c>", 16_385)])
def test_one_with_more_than_any_shelf_has(text, times):
    end = b"</row></sheetData>"
    many = altered(PLAIN, SHEET, lambda sheet: sheet.replace(end, text * times + end))
    assert refused(many) == "The workbook has far more cells than a shelf: save it as CSV."


def test_a_row_that_says_it_is_the_thousand_millionth():
    far = altered(PLAIN, SHEET, lambda text: text.replace(b'r="2"', b'r="1000000000"', 1))
    assert refused(far) == "Line 1048576: the sheet goes on below it."


def test_gaps_between_rows_keep_the_line():
    gap = altered(PLAIN, SHEET, lambda text: text.replace(b'<row r="2">', b'<row r="900">'))
    assert read_workbook(gap).rows == ((900, ("Nut", "4")),)


def test_a_size_that_lies_is_not_believed():
    said = altered(PLAIN, SHEET, lambda text: text.replace(b'ref="A1:B2"', b'ref="A1:A1"'))
    assert read_workbook(said).rows == ((2, ("Nut", "4")),)


@pytest.mark.parametrize(
    ("rows", "sentence"),
    [
        ([["name"], *([["x"]] * 20_001)], MANY),
        ([["h"] * 65], "Line 1: it has more than 64 columns."),
        ([["name"], ["x" * 4001]], LONG),
        ([], "Line 1: the file is empty."),
    ],
)
def test_limits(rows, sentence):
    assert refused(workbook(*rows)) == sentence


@pytest.mark.parametrize("cut", [10, 200, 1000, -30])
def test_one_that_is_cut_short(cut):
    assert refused(PLAIN[:cut]) == UNREADABLE


def test_one_whose_packing_is_damaged():
    with zipfile.ZipFile(io.BytesIO(PLAIN)) as packed:
        start = packed.getinfo(SHEET).header_offset + 30 + len(SHEET)
    damaged = bytearray(PLAIN)
    damaged[start : start + 20] = b"\xff" * 20
    assert refused(bytes(damaged)) == UNREADABLE


@pytest.mark.parametrize("name", ["xl/workbook.xml", SHEET, "[Content_Types].xml", "xl/_rels/workbook.xml.rels"])
@pytest.mark.parametrize("text", [b"", b"<a/>", b"<a", b"\xff\xfe\x00"])
def test_one_whose_inside_is_no_workbook_is_read_or_refused(name, text):
    try:
        found = read_workbook(altered(PLAIN, name, lambda _: text))
    except TableError:
        return
    assert found.headings


def test_formulas_are_not_run():
    data = workbook(["name", "quantity"], ["Nut", "=1+1"])
    assert read_workbook(data).rows == ((2, ("Nut", "")),)


def test_what_a_formula_came_to_is_read():
    data = altered(
        workbook(["name", "quantity"], ["Nut", "=1+1"]),
        SHEET,
        lambda text: text.replace(b"<v />", b"<v>2</v>").replace(b"<v></v>", b"<v>2</v>"),
    )
    assert read_workbook(data).rows == ((2, ("Nut", "2")),)
