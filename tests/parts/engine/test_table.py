"""A table read from a CSV file: as it was meant, or one sentence with the line."""

import pytest

from garage.engine.cells import guarded, unguarded
from parts.engine.table import MOST_ROWS, TableError, read_csv

PLAIN = (("name", "quantity"), ((2, ("Hub nut", "4")), (3, ("Prüfdorn é", "1"))))
TEXT = "name,quantity\r\nHub nut,4\r\nPrüfdorn é,1\r\n"


def read(data: bytes):
    table = read_csv(data)
    return table.headings, table.rows


@pytest.mark.parametrize(
    "data",
    [
        TEXT.encode(),
        TEXT.encode("utf-8-sig"),
        TEXT.encode("utf-16"),
        TEXT.encode("utf-16-le"),
        TEXT.encode("utf-16-be"),
        TEXT.encode("latin-1"),
        TEXT.replace(",", ";").encode(),
        TEXT.replace(",", "\t").encode(),
        TEXT.replace("\r\n", "\r").encode(),
        TEXT.replace("\r\n", "\n").encode(),
        TEXT.rstrip().encode(),
        TEXT.replace("Hub nut", '"Hub nut"').encode(),
        TEXT.replace("Hub nut,4", " Hub nut , 4,,,").encode(),
    ],
)
def test_the_same_table_in_every_dress(data):
    assert read(data) == PLAIN


def test_quotes_breaks_and_empty_lines_keep_the_line_that_a_row_begins_on():
    data = b'name,note\n\n"a ""b"", c","one\ntwo"\nlast,x\n'
    assert read(data) == (("name", "note"), ((3, ('a "b", c', "one\ntwo")), (5, ("last", "x"))))


@pytest.mark.parametrize(
    ("data", "sentence"),
    [
        (b"", "Line 1: the file is empty."),
        (b"\n\n,,\n", "Line 1: the file is empty."),
        (b"name,quantity\n", "Line 1: there is no row below the headings."),
        (b"name,q\nHub\0,4\n", "Line 2: there is a NUL character in it."),
        (b'name,q\nHub,4\n"Nut,3\nPin,2\n', "Line 3: a quoted cell is not closed as it should be."),
        (b'name,q\n"19 inch" wheel,4\n', "Line 2: a quoted cell is not closed as it should be."),
        (b"name,q,Name\nHub,4,x\n", "Line 1: the heading “Name” is there twice."),
        (
            b"name,,q\nHub,x,4\n",
            "Line 2: column 2 holds “x”, but line 1 has no heading for it.",
        ),
        (
            b"name,q\nHub,4,extra\n",
            "Line 2: column 3 holds “extra”, but line 1 has no heading for it.",
        ),
        (b"name\n" + b"x" * 5_242_880, "The file is larger than 5 MB: split it."),
        (
            b"name\n" + b"x\n" * (MOST_ROWS + 1),
            "Line 20002: there are more than 20,000 rows: split the file.",
        ),
        (b"a" + b",b" * 5000, "Line 1: it has more than 64 columns."),
        (
            b"name\nHub\n" + b"x" * 200_000,
            "Line 3: a cell has more than 4,000 characters.",
        ),
        (
            b"name,q\nHub," + b"x" * 4001,
            "Line 2, column 2: more than 4,000 characters; is a quote left open?",
        ),
        (b"\xff\xfea", "Line 1: it looks like UTF-16, but cannot be read as that."),
    ],
)
def test_what_cannot_be_read_is_one_sentence_with_its_line(data, sentence):
    with pytest.raises(TableError) as wrong:
        read_csv(data)
    assert str(wrong.value) == sentence


@pytest.mark.parametrize(
    "text",
    ["=1+1", "+1", "-1+2", "@SUM(1)", "\t=1", "\r=1", "\n=1", "＝1", "＠x", "-12.5", "+44 1234"],
)
def test_what_a_spreadsheet_would_run_is_guarded_and_read_back(text):
    assert guarded(text) == "'" + text
    assert unguarded(guarded(text)) == text


@pytest.mark.parametrize("text", ["'71 gearbox", "''", "'=1", "0012", "1E5", "", "'", "a=1"])
def test_every_text_comes_back_as_it_was(text):
    assert unguarded(guarded(text)) == text


def test_an_apostrophe_that_guards_nothing_stays():
    assert unguarded("'71 gearbox") == "'71 gearbox"
