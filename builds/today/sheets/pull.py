"""The pull list: what to fetch from the shelf, place by place on one way round."""

from reportlab.platypus import Flowable

from builds.today.pages.pull_sheet import PullSheet
from builds.verdict.sheet import running
from garage.sheets.frame import sheet
from garage.sheets.kit import nothing, part
from garage.sheets.rows import Bullet, TickRow


def pull_sheet(rows: PullSheet) -> bytes:
    """The sheet as PDF bytes."""
    facts = "Tick what is pulled, then tap it in: the ledger knows only what is tapped."
    return sheet(lambda: _story(rows), running(rows.head, rows.title, facts), rows.head.paper)


def _story(rows: PullSheet) -> list[Flowable]:
    story: list[Flowable] = []
    for place, picks in rows.places:
        story += part(place, [TickRow(pick.what, pick.note) for pick in picks])
    if not rows.places:
        story += nothing("Nothing on the shelf is wanted.")
    return story + part("Not on the shelf", [Bullet(f"{pick.what}, {pick.note}") for pick in rows.missing])
