"""The list of what is owed: to be given back, car by car."""

from reportlab.platypus import Flowable

from builds.shelf.pages.owed_sheet import OwedSheet
from builds.verdict.sheet import running
from garage.sheets.frame import sheet
from garage.sheets.kit import nothing, part
from garage.sheets.rows import TickRow


def owed_sheet(rows: OwedSheet) -> bytes:
    """The sheet as PDF bytes."""
    story: list[Flowable] = []
    for car, owed in rows.cars:
        story += part(car, [TickRow(what, note, pen="given back, initials") for what, note in owed])
    if not story:
        story += nothing("Nothing is owed: every car has what is its own.")
    return sheet(story, running(rows.head, "What is owed"), rows.head.paper)
