"""The plan as a drawing: a lane a person, days side by side, nights folded, events as edges; it fits any screen."""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date, datetime, time, timedelta

from builds.plan.engine.ids import pk_of
from builds.plan.engine.sessions import Session
from builds.plan.engine.timed_plan import TimedPlan
from builds.plan.facts.wall import Wall
from builds.plan.pages.axis import WIDTH, FoldedAxis
from builds.plan.pages.lanes import Lane, cure_lanes, hold_lanes, people_lanes
from builds.planner.axis import clip
from garage.engine.moments import day_words
from garage.engine.words import listed_in_words
from garage.models import Entry

EVENT_ROW, FOOT = 20, 8  # px: a line of words of an event; below the lanes
NAMED = 3  # cars that leave together which are named, or one more
NARROW, LETTER = 3.4, 7.5  # px of a per cent of the strip of a phone; of a letter of such words


@dataclass(frozen=True)
class DayMark:
    """A day's head, per cent; `iso` is its address, `short` its first letters for where it is narrow."""

    x: float
    width: float
    iso: str
    short: str
    name: str
    spoken: str
    hours: str


@dataclass(frozen=True)
class Edge:
    """A moment at which cars must leave, per cent; `y` keeps its words clear of the others'."""

    x: float
    y: int
    words: str

    @property
    def from_left(self) -> bool:
        return self.x < 50

    @property
    def room(self) -> float:
        """How wide its words may be."""
        return 100 - self.x if self.from_left else self.x

    @property
    def tall(self) -> int:
        """px: of one line, or two where a phone has no room for one."""
        return EVENT_ROW * (2 if LETTER * len(self.words) > NARROW * self.room else 1)


@dataclass(frozen=True)
class Strip:
    """Heights in px; `day` when one day alone is drawn."""

    height: int
    head: int
    lanes: tuple[Lane, ...]
    days: tuple[DayMark, ...]
    folds: tuple[tuple[float, float], ...]
    edges: tuple[Edge, ...]
    says: str
    day: str

    @property
    def foot(self) -> int:
        return self.height - FOOT

    @property
    def tall(self) -> int:
        return self.foot - self.head


def plan_strip(wall: Wall, entries: Iterable[Entry], day: date | None = None, *, close: bool = False) -> Strip | None:
    """From now on: the whole way, or that day alone where there is work on it; None when there is nothing to draw.

    Work of no length has no width. `close`: hours in which nobody works are folded as nights are.
    """
    plan, now = wall.plan, max(0, wall.plan.clock.last_until(wall.rows.at))
    ahead = [
        session
        for session in wall.sessions
        if pk_of(session.job) in wall.jobs and session.end > max(session.start, now)
    ]
    if not ahead:
        return None
    due = _due(wall, entries)
    start, end = now, max([session.end for session in ahead] + list(due))
    alone = [session for session in ahead if day and _is_on(plan, day, max(session.start, now), session.end)]
    if day and alone:
        start, end = max(start, _midnight(plan, day)), min(end, _midnight(plan, day + timedelta(days=1)))
    shown = alone or ahead
    wide = [(session.start, session.end) for session in shown] if close else _open_at(plan, shown)
    return _drawn(wall, FoldedAxis(wide, start, end), shown, due, day if alone else None)


def _is_on(plan: TimedPlan, day: date, start: int, end: int) -> bool:
    """Whether any of slots [start, end) is."""
    return plan.clock.moment(start).date() <= day <= plan.clock.moment(end - 1).date()


def _drawn(wall: Wall, axis: FoldedAxis, ahead: list[Session], due: dict[int, list[str]], day: date | None) -> Strip:
    plan, rows = wall.plan, wall.rows
    edges = tuple(_edges(plan, axis, due))
    head = (edges[-1].y + edges[-1].tall if edges else 0) + FOOT
    lanes = _stacked([*people_lanes(wall, axis, ahead), *cure_lanes(wall, axis), *hold_lanes(plan, axis)], head)
    return Strip(
        height=lanes[-1].y + lanes[-1].height + FOOT if lanes else head + FOOT,
        head=head,
        lanes=lanes,
        days=tuple(_days(plan, axis, rows.at.astimezone(rows.zone).date())),
        folds=tuple((round(part.x, 2), round(part.width, 2)) for part in axis.stretches if part.fold),
        edges=edges,
        says=_says(plan, lanes, axis, edges),
        day=day_words(day) if day else "",
    )


def _midnight(plan: TimedPlan, day: date) -> int:
    return plan.clock.last_until(datetime.combine(day, time(), plan.clock.zone))


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


def _open_at(plan: TimedPlan, sessions: list[Session]) -> Iterator[tuple[int, int]]:
    """When somebody is in on a day with work; other days are folded with the nights."""
    yield from ((session.start, session.end) for session in sessions)
    busy = {plan.clock.moment(session.start).date() for session in sessions}
    for person in plan.problem.people:
        for window in clip(person.windows, plan.problem.slots):
            if plan.clock.moment(window[0]).date() in busy:
                yield window


def _edges(plan: TimedPlan, axis: FoldedAxis, due: dict[int, list[str]]) -> Iterator[Edge]:
    """Each with its words in a row of their own."""
    y = 0
    for slot in sorted(slot for slot in due if axis.start < slot <= axis.end):
        names, more = due[slot], len(due[slot]) - NAMED
        verb = "leaves" if len(names) == 1 else "leave"
        told = [*names[:NAMED], f"{more} more"] if more > 1 else names
        words = f"{listed_in_words(told)} {verb} {plan.clock.words(slot)}"
        yield (edge := Edge(axis.x(slot), y, words))
        y += edge.tall


def _days(plan: TimedPlan, axis: FoldedAxis, today: date) -> Iterator[DayMark]:
    """Each day from where its first hours begin; the hours when they are in one piece."""
    spans: dict[date, list[tuple[int, int]]] = defaultdict(list)
    for since, until in _within_days(plan, axis):
        spans[plan.clock.moment(since).date()].append((since, until))
    starts = [axis.x(pieces[0][0]) for pieces in spans.values()]
    for (day, pieces), x, beyond in zip(spans.items(), starts, [*starts[1:], WIDTH], strict=True):
        since, until = plan.clock.moment(pieces[0][0]), plan.clock.moment(pieces[-1][1])
        near = "Today" if day == today else ""
        yield DayMark(
            x=x,
            width=round(beyond - x, 2),
            iso=day.isoformat(),
            short=f"{day:%a}"[:2],
            name=near or day_words(day),
            spoken=f"{near or f'{day:%A} {day.day} {day:%B}'} alone",
            hours=f"{since:%H:%M}–{until:%H:%M}",
        )


def _within_days(plan: TimedPlan, axis: FoldedAxis) -> Iterator[tuple[int, int]]:
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
