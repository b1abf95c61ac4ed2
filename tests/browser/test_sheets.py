"""A sheet brought to the shelf in a real browser: its bad rows mended there, then all of it."""

import re

import pytest
from django.db.models import Sum

from parts.actions.snapshot import faults
from parts.models import Balance, Move, Part
from tests.factories import MembershipFactory

# The browser adds nothing that a database changes: the rooms test what is pressed here on both.
pytestmark = pytest.mark.once

ROWS = 300
# Line: the part's column as it is in the file, and as it is mended.
BAD = {
    12: ("How many or how much", "a few", "3"),
    47: ("What it is", "", "Radius pin"),
    88: ("Cost of one", "1.2.3", "1.20"),
    140: ("Condition", "shiny", "new"),
    199: ("Where it lies", "", "Bin 4"),
    256: ("Counted in", "cups", "ml"),
    301: ("Systems it is part of", "wings", "body"),
}
COLUMN = {
    "How many or how much": 1, "What it is": 0, "Cost of one": 3, "Condition": 4,
    "Where it lies": 2, "Counted in": 5, "Systems it is part of": 6,
}  # fmt: skip


@pytest.fixture
def sheet(tmp_path):
    lines = ["name;qty;location;price;condition;unit;system"]
    for line in range(2, ROWS + 2):
        cells = [f"Part {line}", "2", f"Bin {line % 9}", "4,50", "new", "piece", "wheels"]
        if line in BAD:
            label, wrong, _ = BAD[line]
            cells[COLUMN[label]] = wrong
        lines.append(";".join(cells))
    file = tmp_path / "the shelf.csv"
    file.write_text("\r\n".join(lines), encoding="latin-1")
    return file


@pytest.mark.parametrize("size", ["phone"])
def test_three_hundred_rows_seven_of_them_bad(sheet, sign_in, live_server, db):
    MembershipFactory(role="owner", person__name="Ines")
    page = sign_in("Ines")
    page.goto(f"{live_server.url}/shelf/")
    main = page.locator("main")
    main.get_by_role("link", name="Bring in a sheet").click()
    main.get_by_label("The file").set_input_files(sheet)
    main.get_by_role("button", name="Read it").click()

    main.get_by_role("heading", name="Which column is which?").wait_for()
    where = main.get_by_label("Where it lies")
    assert where.locator("option:checked").inner_text() == "location (such as Bin 2)"
    main.get_by_role("button", name="Look through the rows").click()

    main.get_by_role("heading", name="Bad: 7").wait_for()
    assert main.get_by_role("button", name="Write it to the shelf").count() == 0
    assert not Part.objects.exists()
    main.get_by_role("link", name=re.compile("^Row 12:")).click()
    for line, (label, wrong, right) in BAD.items():
        main.get_by_role("heading", name=f"Row {line}", exact=True, level=1).wait_for()
        field = main.get_by_label(label)
        assert field.input_value() == wrong
        field.fill(right)
        main.get_by_role("button", name="Mend it").click()

    main.get_by_role("heading", name="New: 300").wait_for()
    main.get_by_role("button", name="Write it to the shelf").click()
    main.get_by_text("300 rows, on the shelf").wait_for()

    assert Part.objects.count() == Move.objects.filter(verb="receive").count() == ROWS
    held = Balance.objects.filter(outside=False)
    assert held.aggregate(all=Sum("quantity"))["all"] == 2 * ROWS + 1
    assert held.filter(part__name="Radius pin", place__name="Bin 2", quantity=2).exists()
    assert Part.objects.get(name="Part 88").cost_minor == 120
    assert faults() == []
    scroll = "document.documentElement.scrollWidth <= document.documentElement.clientWidth"
    assert page.evaluate(scroll)
