"""The plan as a drawing: a lane a person, days side by side, nights folded, events as edges."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date

from builds.plan.engine.ids import pk_of
from builds.plan.engine.sessions import Session
from builds.plan.engine.timed_plan import TimedPlan
from builds.plan.facts.wall import Wall
from builds.plan.pages.axis import FoldedAxis
from builds.plan.pages.lanes import Lane, cure_lanes, hold_lanes, people_lanes
from builds.plan.pages.lettering import LETTER, cut
from builds.planner.axis import clip
from garage.engine.words import listed_in_words
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


def plan_strip(wall: Wall, entries: Iterable[Entry]) -> Strip | None:
    """From now on; None when there is nothing to draw."""
    plan, rows = wall.plan, wall.rows
    ahead = [
        session
        for session in wall.sessions
        if pk_of(session.job) in wall.jobs and plan.clock.moment(session.end) > rows.at
    ]
    if not ahead:
        return None
    due = _due(wall, entries)
    start = max(0, plan.clock.last_until(rows.at))
    end = max([session.end for session in ahead] + list(due))
    axis = _axis(plan, ahead, start, end)
    if is_cut := axis.width > MOST_WIDTH:
        fits = next(stretch.start for stretch in axis.stretches if stretch.x + stretch.width > MOST_WIDTH)
        axis = _axis(plan, ahead, start, max(fits, start + 1))
    edges = _edges(plan, axis, due)
    head = HEAD + EVENT_ROW * (max((edge.row for edge in edges), default=-1) + 1) + 6
    lanes = _stacked([*people_lanes(wall, axis, ahead), *cure_lanes(wall, axis), *hold_lanes(plan, axis)], head)
    return Strip(
        width=axis.width + MARGIN,
        height=lanes[-1].y + lanes[-1].height + FOOT if lanes else head + FOOT,
        head=head,
        lanes=lanes,
        days=tuple(_days(plan, axis, rows.at.astimezone(rows.zone).date())),
        folds=tuple((stretch.x, stretch.width) for stretch in axis.stretches if stretch.fold),
        edges=edges,
        says=_says(plan, lanes, axis, edges),
        is_cut=is_cut,
    )


def _stacked(lanes: Iterable[Lane], top: int) -> tuple[Lane, ...]:
    """One under the other."""
    stacked, y = [], top
    for lane in lanes:
        stacked.append(replace(lane, y=y))
        y += lane.height
    return tuple(stacked)


def _due(wall: Wall, entries: Iterable[Entry]) -> dict[int, list[str]]:
    """Which cars must leave, by slot, where that is ahead and within the plan."""
    clock, slots = wall.plan.clock, wall.plan.problem.slots
    leaving: dict[int, list[str]] = defaultdict(list)
    for entry in entries:
        if wall.rows.at < entry.event.due_at <= clock.moment(slots):
            leaving[clock.last_until(entry.event.due_at)].append(entry.vehicle.name)
    return leaving


def _axis(plan: TimedPlan, sessions: list[Session], start: int, end: int) -> FoldedAxis:
    """Wide where somebody is in on a day with work; other days are folded with the nights."""
    open_at = [(session.start, session.end) for session in sessions]
    busy = {plan.clock.moment(session.start).date() for session in sessions}
    for person in plan.problem.people:
        for window in clip(person.windows, plan.problem.slots):
            if plan.clock.moment(window[0]).date() in busy:
                open_at.append(window)
    return FoldedAxis(open_at, start, end)


def _edges(plan: TimedPlan, axis: FoldedAxis, due: dict[int, list[str]]) -> tuple[Edge, ...]:
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
        row = next((number for number, taken in enumerate(reach) if until <= taken), len(reach))
        reach[row : row + 1] = [begin]
        edges.append(Edge(x, words, row, from_left))
    return tuple(reversed(edges))


def _days(plan: TimedPlan, axis: FoldedAxis, today: date) -> Iterable[DayMark]:
    """Each day where its first hours begin; the hours when they are in one piece."""
    spans: dict[date, list[tuple[int, int]]] = defaultdict(list)
    for since, until in _within_days(plan, axis):
        spans[plan.clock.moment(since).date()].append((since, until))
    starts = [axis.x(pieces[0][0]) for pieces in spans.values()]
    for (day, pieces), x, beyond in zip(spans.items(), starts, [*starts[1:], axis.width + MARGIN], strict=True):
        room = beyond - x - 8
        name = f"Today, {day:%a} {day.day}" if day == today else f"{day:%a} {day.day} {day:%b}"
        since, until = plan.clock.moment(pieces[0][0]), plan.clock.moment(pieces[-1][1])
        hours = f"{since:%H:%M}–{until:%H:%M}"
        fits = LETTER * len(hours) <= room
        yield DayMark(x, cut(name, room) or f"{day:%a}"[:2], hours if fits else "")


def _within_days(plan: TimedPlan, axis: FoldedAxis) -> Iterable[tuple[int, int]]:
    """The slots drawn wide, cut at midnights."""
    for stretch in axis.stretches:
        slot = stretch.start
        while not stretch.fold and slot < stretch.end:
            day, until = plan.clock.moment(slot).date(), slot + 1
            while until < stretch.end and plan.clock.moment(until).date() == day:
                until += 1
            yield slot, until
            slot = until


def _says(plan: TimedPlan, lanes: Iterable[Lane], axis: FoldedAxis, edges: Iterable[Edge]) -> str:
    """What the drawing shows, for those who do not see it."""
    names = [lane.name for lane in lanes if lane.kind == "person"]
    begin, end = plan.clock.words(axis.start), plan.clock.words(axis.end)
    parts = [f"Lanes for {listed_in_words(names)}, {begin} to {end}" if names else begin]
    parts += [edge.words for edge in edges]
    curing = sum(len(lane.marks) for lane in lanes if lane.kind == "cure")
    if curing:
        parts.append(f"{curing} cures run through the nights" if curing > 1 else "one cure runs")
    return f"{'. '.join(parts)}. The list of the plan says the same in words."
