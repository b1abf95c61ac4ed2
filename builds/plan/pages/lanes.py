"""The lanes of the plan strip: people with their sessions, cures, and stripped cars that stay."""

from collections.abc import Iterable
from dataclasses import dataclass

from builds.cure.facts.plan_clock import pk_of
from builds.plan.facts.sessions import PlannedCure, Session, ready_words
from builds.plan.facts.stored import Stored
from builds.plan.pages.axis import FoldedAxis
from builds.planner.axis import clip
from builds.steps.pages.job_cards import STRIPES
from builds.work.models.job import Job
from builds.work.models.states import State

LANE, CURE_LANE, HOLD_LANE = 78, 38, 36
NAMES = 92  # px of the names of lanes, left of the drawing
LETTER, NARROW = 7.4, 6.7  # px of a letter of 14 px type, on the wide side; of the lettering
PIN, PEN, PAD = 30, 20, 9  # px that the marks of safety and state take, and the frame
ALONE = "By itself"


@dataclass(frozen=True)
class Mark:
    """A thing drawn in its lane, px; `words` are lines cut to the room there is."""

    x: int
    width: int
    words: tuple[str, ...] = ()
    below: str = ""
    kind: str = ""
    tape: str = ""
    stripe: str = ""
    late: bool = False
    pin: bool = False

    @property
    def ring_x(self) -> int:
        return PAD + 5 + (PIN if self.pin else 0)

    @property
    def ringed(self) -> bool:
        return self.ring_x + 8 <= self.width

    @property
    def below_x(self) -> int:
        return self.ring_x + 10

    @property
    def pen_x(self) -> int:
        return self.width - PEN

    @property
    def inner(self) -> int:
        return self.width - 4


@dataclass(frozen=True)
class Lane:
    """`kind` is person, cure or hold; `off` are hours in which this person is not in."""

    name: str
    kind: str
    height: int
    y: int = 0
    off: tuple[Mark, ...] = ()
    marks: tuple[Mark, ...] = ()

    @property
    def short(self) -> str:
        return cut(self.name, NAMES - 16)

    @property
    def name_dy(self) -> int:
        return self.height // 2 + 5

    @property
    def template(self) -> str:
        return f"builds/plan/strip_{self.kind}_part.html"


def cut(words: str, room: float, letter: float = LETTER) -> str:
    """As much of the words as `room` px hold; nothing when that would be no word."""
    letters = int(room / letter)
    if len(words) <= letters:
        return words
    return f"{words[: letters - 1].rstrip()}…" if letters > 3 else ""


def two_lines(words: str, room: float) -> tuple[str, ...]:
    """The words on two lines of the lettering, cut where they do not fit."""
    letters = int(room / NARROW)
    first = ""
    for word in words.split():
        longer = f"{first} {word}".strip()
        if len(longer) > letters:
            break
        first = longer
    if not first:
        return (cut(words, room, NARROW),)
    rest = words[len(first) :].strip()
    return (first, cut(rest, room, NARROW)) if rest else (first,)


def people_lanes(plan: Stored, axis: FoldedAxis, found: Iterable[Session], jobs: dict[int, Job]) -> list[Lane]:
    blocks: dict[str, list[Mark]] = {}
    for session in found:
        if session.start < axis.end and session.end > axis.start and session.end > session.start:
            block = _block(plan, axis, session, jobs[pk_of(session.job)])
            for person in session.people or (ALONE,):
                blocks.setdefault(person, []).append(block)
    lanes = [
        Lane(
            row.name or row.id,
            "person",
            LANE,
            off=tuple(_off(axis, clip(row.windows, plan.problem.slots))),
            marks=tuple(blocks.get(row.id, ())),
        )
        for row in plan.problem.people
    ]
    if ALONE in blocks:
        lanes.append(Lane(ALONE, "person", LANE, marks=tuple(blocks[ALONE])))
    return lanes


def _block(plan: Stored, axis: FoldedAxis, session: Session, job: Job) -> Mark:
    planned, end = plan.jobs[session.job], plan.placed[session.job].end
    x = axis.x(session.start) + 2
    width = max(5, axis.x(session.end) - x - 2)
    stripe = STRIPES[State(job.state)]
    pen = stripe in ("half", "dashed", "full") and width >= 60
    late = planned.due is not None and end > planned.due
    pin = planned.rank == "safety" and width >= 44
    room = width - 2 * PAD - (PEN if pen else 0)
    part = f"{session.part}/{session.parts}" if session.parts > 1 else ""
    below = ", ".join(filter(None, ["late" if late else "", job.vehicle.name, part]))
    return Mark(
        x=x,
        width=width,
        words=two_lines(job.title, room),
        below=cut(below, room - 15 - (PIN if pin else 0)),
        kind=planned.rank,
        tape=job.vehicle.tape,
        stripe=stripe if pen else "",
        late=late,
        pin=pin,
    )


def _off(axis: FoldedAxis, windows: Iterable[tuple[int, int]]) -> Iterable[Mark]:
    """Hours drawn wide, since somebody is in, in which this person is not."""
    at = axis.start
    for start, end in (*windows, (axis.end, axis.end)):
        for stretch in axis.stretches:
            begin, until = max(at, stretch.start), min(start, stretch.end)
            if begin < until and not stretch.fold:
                yield Mark(axis.x(begin), axis.x(until) - axis.x(begin))
        at = max(at, end)


def cure_lanes(plan: Stored, axis: FoldedAxis, curing: Iterable[PlannedCure], jobs: dict[int, Job]) -> list[Lane]:
    """As many lanes as it takes for no cure to cover another or its words."""
    rows: list[list[Mark]] = []
    for cure in curing:
        job = jobs.get(pk_of(cure.before))
        if job is None or cure.ready <= axis.start or cure.start >= axis.end:
            continue
        x = axis.x(cure.start)
        name = cure.why if cure.why != "wait" else f"after {job.title}"
        words = f"{name[0].upper()}{name[1:]}: {ready_words(plan, cure)}"
        mark = Mark(x, max(4, axis.x(cure.ready) - x), (words,), kind="cure")
        row = next((row for row in rows if _reach(row[-1]) <= x), None)
        if row is None:
            rows.append(row := [])
        row.append(mark)
    return [Lane("" if number else "Curing", "cure", CURE_LANE, marks=tuple(row)) for number, row in enumerate(rows)]


def _reach(mark: Mark) -> float:
    return mark.x + max(mark.width, 24 + LETTER * len(mark.words[0]))


def hold_lanes(plan: Stored, axis: FoldedAxis) -> list[Lane]:
    """Stations on which a stripped car stays, with the car's name."""
    cars = {row.id: row.name or row.id for row in plan.problem.vehicles}
    ends = {row.id: (row.start, row.end) for row in plan.answer.placed}
    lanes = []
    for station in plan.problem.stations:
        marks = []
        for hold in plan.problem.holds:
            if hold.station != station.id or hold.start not in ends:
                continue
            start = ends[hold.start][0]
            end = ends[hold.until][1] if hold.until in ends else plan.problem.slots
            if end > axis.start and start < axis.end:
                x = axis.x(start)
                width = axis.x(end) - x
                words = cut(f"{cars[hold.vehicle]} stays until {plan.clock.words(end)}", width + 60)
                marks.append(Mark(x, max(4, width), (words,), kind="hold"))
        if marks:
            lanes.append(Lane(station.name or station.id, "hold", HOLD_LANE, marks=tuple(marks)))
    return lanes
