"""The pre-event sheet: the verdict with every reason, what is open, what was done, who signs."""

from reportlab.lib.units import mm
from reportlab.platypus import Flowable

from builds.paper.pages.checklist import ChecklistRows, JobRow
from garage.sheets.frame import Running, sheet
from garage.sheets.kit import gap, line, part
from garage.sheets.rows import Bullet, Hazard, SignatureRow, TickRow


def checklist(rows: ChecklistRows) -> bytes:
    """The sheet as PDF bytes."""
    verdict = rows.verdict
    return sheet(
        lambda: _story(rows),
        Running(
            title=f"{rows.car} for {rows.event}",
            verdict=f"{verdict.sentence}.",
            warning="DO NOT DRIVE." if verdict.do_not_drive else "",
            garage=rows.garage,
            computed=rows.computed,
            facts=(
                *([rows.what] if rows.what else []),
                f"Leaves {rows.leaves}{f', {rows.rides}' if rows.rides else ''}. Gates {rows.gates}.",
            ),
            foot=rows.standing,
            address=rows.address,
        ),
        rows.paper,
    )


def _story(rows: ChecklistRows) -> list[Flowable]:
    story = [*_signed(rows), *_standing(rows), *_in_the_way(rows)]
    story += part("Hold points on the way", _ticks(rows.hold_points, pen="signed"))
    story += part(
        "Open wanted jobs: the car may run without them",
        _ticks(rows.wanted, pen="done, initials"),
    )
    story += part("Off the car by the owner's word", [Bullet(words) for words in rows.verdict.without])
    story += part("Ranked lower by hand", [Bullet(words) for words in rows.verdict.lowered])
    story += part("Dropped without being done", [Bullet(words) for words in rows.verdict.dropped])
    story += part("Finished as having opened nothing, or less", [Bullet(words) for words in rows.verdict.on_word])
    story += part("Links of the order of work that were cut", [Bullet(words) for words in rows.cuts])
    story += part(f"Done {rows.since}", _ticks(rows.done))
    story += part("Cautions", [Bullet(text, "small") for text in rows.cautions])
    return story


def _signed(rows: ChecklistRows) -> list[Flowable]:
    """Who answers for the verdict, right below it."""
    story: list[Flowable] = []
    if stops := len(rows.verdict.do_not_drive_reasons):
        which = "The first reason below says" if stops == 1 else f"The first {stops} reasons below say"
        story += [gap(3 * mm), Hazard("Do not drive", f"{which} why.")]
    return [*story, SignatureRow("Prepared by: name, date, time", "Second pair of eyes: name, date, time")]


def _standing(rows: ChecklistRows) -> list[Flowable]:
    """What else there is to the verdict."""
    verdict = rows.verdict
    story: list[Flowable] = []
    if verdict.reasons and verdict.not_recorded:
        story += [gap(3 * mm), line(f"Besides: {verdict.not_recorded}")]
    if verdict.besides and verdict.state != "fit":
        story += [gap(3 * mm), line(verdict.besides)]
    for said in filter(None, (rows.outlook, rows.on_plan, *rows.troubles)):
        story += [gap(3 * mm), line(said)]
    return story


def _in_the_way(rows: ChecklistRows) -> list[Flowable]:
    return part(
        "What stands in the way, worst first",
        [
            TickRow(reason.title, reason.note, pen="cleared, initials", number=number)
            for number, reason in enumerate(rows.reasons, start=1)
        ],
    )


def _ticks(jobs: tuple[JobRow, ...], *, pen: str = "") -> list[Flowable]:
    return [TickRow(job.title, job.note, pen=pen, mark=job.mark) for job in jobs]
