"""The pack list: section by section, struck through where it is in already."""

from reportlab.platypus import Flowable

from builds.packing.pages.sheet import PackSheet
from builds.verdict.sheet import running
from garage.sheets.frame import sheet
from garage.sheets.kit import nothing, part
from garage.sheets.rows import Bullet, TickRow


def pack_sheet(rows: PackSheet) -> bytes:
    """The sheet as PDF bytes."""
    facts = f"Cars leave {rows.leaves}.", f"{rows.done}." if rows.done else ""
    return sheet(lambda: _story(rows), running(rows.head, f"Pack for {rows.event}", *facts), rows.head.paper)


def _story(rows: PackSheet) -> list[Flowable]:
    story: list[Flowable] = []
    for title, ticks in rows.sections:
        story += part(
            title,
            [TickRow(tick.what, tick.note, mark="full" if tick.packed else "") for tick in ticks],
        )
    if not rows.sections:
        story += nothing("No list was made yet: make it on the event's page.")
    return story + part("Stays here", [Bullet(words) for words in rows.left])
