"""The pre-event sheet: the verdict with every reason, what is open, what was done, who signs."""

from reportlab.lib.units import mm
from reportlab.platypus import Flowable

from builds.loaders.checklist import ChecklistRows
from garage.sheets.kit import Running, gap, line, part, sheet
from garage.sheets.rows import Bullet, Hazard, Numbered, SignatureLine, TickRow

HEADINGS = {
    "safety": "Open safety jobs",
    "needed": "Open needed jobs",
    "wanted": "Open wanted jobs: the car may run without them",
}


def checklist(rows: ChecklistRows) -> bytes:
    """The sheet as PDF bytes."""
    return sheet(
        f"{rows.car}, {rows.event}",
        _story(rows),
        Running(
            head=f"{rows.car} · {rows.event}",
            verdict=rows.verdict.sentence,
            computed=f"{rows.garage} · computed {rows.computed}",
            foot=rows.standing,
            address=rows.address,
        ),
        rows.paper,
    )


def _story(rows: ChecklistRows) -> list[Flowable]:
    story: list[Flowable] = [line(f"{rows.car} for {rows.event}", "title")]
    if rows.what:
        story.append(line(rows.what))
    story.append(line(f"Leaves {rows.leaves}. Gates {rows.gates}."))
    story.append(gap(3 * mm))
    if rows.verdict.do_not_drive:
        story += [Hazard("Do not drive"), gap(3 * mm)]
    story.append(line(f"{rows.verdict.sentence}.", "verdict"))
    if rows.verdict.reasons and rows.verdict.not_recorded:
        story.append(line(f"Not known besides: {rows.verdict.not_recorded}", "small"))
    story += part(
        "What stands in the way",
        [
            Numbered(number, reason.sentence, reason.clears)
            for number, reason in enumerate(rows.verdict.reasons, start=1)
        ],
    )
    for rank, jobs in rows.open_jobs:
        story += part(
            HEADINGS[rank], [TickRow(job.title, job.note, pen="done, initials") for job in jobs]
        )
    story += part(
        "Hold points not signed",
        [TickRow(point.title, point.note, pen="signed") for point in rows.hold_points],
    )
    story += part("Ranked lower by hand", [line(words) for words in rows.verdict.lowered])
    story += part(
        f"Done {rows.since}",
        [TickRow(job.title, job.note, mark=job.mark) for job in rows.done] or [line("Nothing.")],
    )
    story += part("Cautions", [Bullet(text) for text in rows.cautions])
    story += part(
        "Looked over",
        [
            SignatureLine("Prepared by: name, date, time"),
            SignatureLine("Second pair of eyes: name, date, time"),
        ],
    )
    return story
