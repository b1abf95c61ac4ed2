"""The lists of the shelf on paper: what is owed car by car, what is to be bought and what has still to come."""

from reportlab.platypus import Flowable

from builds.shelf.pages.owed_sheet import OwedSheet
from builds.shelf.pages.want_sheet import WantSheet
from builds.verdict.sheet import running
from garage.sheets.frame import sheet
from garage.sheets.kit import nothing, part
from garage.sheets.rows import TickRow


def owed_sheet(rows: OwedSheet) -> bytes:
    """The sheet as PDF bytes."""
    return sheet(lambda: _owed(rows), running(rows.head, "What is owed"), rows.head.paper)


def _owed(rows: OwedSheet) -> list[Flowable]:
    story: list[Flowable] = []
    for car, owed in rows.cars:
        story += part(car, [TickRow(what, note, pen="given back, initials") for what, note in owed])
    return story or nothing("Nothing is owed: every car has what is its own.")


def want_sheet(rows: WantSheet) -> bytes:
    """The sheet as PDF bytes."""
    return sheet(lambda: _wanted(rows), running(rows.head, "What is wanted"), rows.head.paper)


def _wanted(rows: WantSheet) -> list[Flowable]:
    story: list[Flowable] = []
    for title, lines in (*rows.suppliers, *rows.coming):
        story += part(title, [TickRow(what, note) for what, note in lines])
    return story or nothing("Nothing is to be bought, and nothing is on its way.")
