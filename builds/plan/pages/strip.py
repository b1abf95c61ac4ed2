"""The plan as a drawing: a lane a person, days side by side, nights folded, events as edges."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date

from builds.cure.facts.plan_clock import pk_of
from builds.plan.facts.rows import PlanRows
from builds.plan.facts.sessions import Session, cures, sessions
from builds.plan.facts.stored import Stored
from builds.plan.pages.axis import FoldedAxis
from builds.plan.pages.lanes import LETTER, Lane, cure_lanes, cut, hold_lanes, people_lanes
from builds.planner.axis import clip
from builds.planner.words import listed_in_words
from builds.work.models.job import Job
from garage.models import Entry

HEAD, EVENT_ROW, FOOT, MARGIN = 52, 24, 12, 28
MOST_WIDTH, SHEET = 12_000, 1_000


@dataclass(frozen=True)
class DayMark:
    x: int
    name: str
    hours: str


@dataclass(frozen=True)
class Edge:
    """A moment at which cars must leave; `row` keeps its words clear of the others'."""

    x: int
    words: str
    row: int
    from_left: bool

    @property
    def y(self) -> int:
        return HEAD + EVENT_ROW * self.row + 14


@dataclass(frozen=True)
class Strip:
    width: int
    height: int
    head: int
    lanes: tuple[Lane, ...]
    days: tuple[DayMark, ...]
    folds: tuple[tuple[int, int], ...]
    edges: tuple[Edge, ...]
    says: str
    is_cut: bool

    @property
    def foot(self) -> int:
        return self.height - FOOT

    @property
    def sheets(self) -> range:
        """Where each piece begins when the drawing is printed in pieces, one under the other."""
        return range(0, self.width, SHEET)

    @property
    def tall(self) -> int:
        return self.foot - self.head


def plan_strip(plan: Stored, rows: PlanRows, jobs: dict[int, Job], entries: Iterable[Entry]) -> Strip | None:
    """None when there is nothing to draw; `jobs` by pk as they are now, cars attached."""
    found = [
        session for session in sessions(plan) if pk_of(session.job) in jobs and plan.clock.moment(session.end) > rows.at
    ]
    if not found:
        return None
    due = _due(plan, rows, entries)
    start = max(0, plan.clock.last_until(rows.at))
    end = max([session.end for session in found] + list(due))
    axis = _axis(plan, found, start, end)
    if is_cut := axis.width > MOST_WIDTH:
        fits = next(each.start for each in axis.stretches if each.x + each.width > MOST_WIDTH)
        axis = _axis(plan, found, start, max(fits, start + 1))
    edges = _edges(plan, axis, due)
    y = head = HEAD + EVENT_ROW * (max((edge.row for edge in edges), default=-1) + 1) + 6
    lanes = []
    for lane in (
        *people_lanes(plan, axis, found, jobs),
        *cure_lanes(plan, axis, cures(plan, rows), jobs),
        *hold_lanes(plan, axis),
    ):
        lanes.append(replace(lane, y=y))
        y += lane.height
    return Strip(
        width=axis.width + MARGIN,
        height=y + FOOT,
        head=head,
        lanes=tuple(lanes),
        days=tuple(_days(plan, axis, rows.at.astimezone(rows.zone).date())),
        folds=tuple((each.x, each.width) for each in axis.stretches if each.fold),
        edges=edges,
        says=_says(plan, lanes, axis, edges),
        is_cut=is_cut,
    )


def _due(plan: Stored, rows: PlanRows, entries: Iterable[Entry]) -> dict[int, list[str]]:
    """Which cars must leave, by slot, where that is ahead and within the plan."""
    found: dict[int, list[str]] = defaultdict(list)
    for entry in entries:
        if rows.at < entry.event.due_at <= plan.clock.moment(plan.problem.slots):
            found[plan.clock.last_until(entry.event.due_at)].append(entry.vehicle.name)
    return found


def _axis(plan: Stored, found: list[Session], start: int, end: int) -> FoldedAxis:
    """Wide where somebody is in on a day with work; other days are folded with the nights."""
    windows = [(session.start, session.end) for session in found]
    busy = {plan.clock.moment(session.start).date() for session in found}
    for person in plan.problem.people:
        for window in clip(person.windows, plan.problem.slots):
            if plan.clock.moment(window[0]).date() in busy:
                windows.append(window)
    return FoldedAxis(windows, start, end)


def _edges(plan: Stored, axis: FoldedAxis, due: dict[int, list[str]]) -> tuple[Edge, ...]:
    """Words stand to the left of their edge; those of an earlier one below, where they meet."""
    edges: list[Edge] = []
    reach: list[float] = []
    for slot in sorted((slot for slot in due if slot <= axis.end), reverse=True):
        x, names = axis.x(slot), due[slot]
        verb = "leaves" if len(names) == 1 else "leave"
        words = f"{listed_in_words(names)} {verb} {plan.clock.words(slot)}"
        length = LETTER * len(words) + 16
        from_left = x < length
        begin, until = (x, x + length) if from_left else (x - length, x + 4)
        row = next((n for n, taken in enumerate(reach) if until <= taken), len(reach))
        reach[row : row + 1] = [begin]
        edges.append(Edge(x, words, row, from_left))
    return tuple(reversed(edges))


def _days(plan: Stored, axis: FoldedAxis, today: date) -> Iterable[DayMark]:
    """Each day where its first hours begin; the hours when they are in one piece."""
    spans: dict[date, list[tuple[int, int]]] = defaultdict(list)
    for each in axis.stretches:
        slot = each.start
        while not each.fold and slot < each.end:
            day = plan.clock.moment(slot).date()
            until = slot + 1
            while until < each.end and plan.clock.moment(until).date() == day:
                until += 1
            spans[day].append((slot, until))
            slot = until
    starts = [axis.x(pieces[0][0]) for pieces in spans.values()]
    for (day, pieces), x, beyond in zip(spans.items(), starts, [*starts[1:], axis.width + MARGIN], strict=True):
        room = beyond - x - 8
        name = f"Today, {day:%a} {day.day}" if day == today else f"{day:%a} {day.day} {day:%b}"
        since, until = plan.clock.moment(pieces[0][0]), plan.clock.moment(pieces[-1][1])
        hours = f"{since:%H:%M}–{until:%H:%M}"
        fits = LETTER * len(hours) <= room
        yield DayMark(x, cut(name, room) or f"{day:%a}"[:2], hours if fits else "")


def _says(plan: Stored, lanes: list[Lane], axis: FoldedAxis, edges: tuple[Edge, ...]) -> str:
    """What the drawing shows, for those who do not see it."""
    names = [lane.name for lane in lanes if lane.kind == "person"]
    begin, end = plan.clock.words(axis.start), plan.clock.words(axis.end)
    parts = [f"Lanes for {listed_in_words(names)}, {begin} to {end}" if names else begin]
    parts += [edge.words for edge in edges]
    curing = sum(len(lane.marks) for lane in lanes if lane.kind == "cure")
    if curing:
        parts.append(f"{curing} cures run through the nights" if curing > 1 else "one cure runs")
    return f"{'. '.join(parts)}. The list of the plan says the same in words."
