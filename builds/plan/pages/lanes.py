"""The lanes of the plan strip: people with their sessions, cures, and stripped cars that stay."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from builds.plan.engine.ids import pk_of
from builds.plan.engine.sessions import PlannedCure, Session, when_ready
from builds.plan.engine.timed_plan import TimedPlan
from builds.plan.facts.wall import Wall
from builds.plan.pages.axis import FoldedAxis
from builds.planner.axis import clip, joined
from builds.steps.pages.job_cards import STRIPES
from builds.work.models.job import Job
from builds.work.models.states import State

LANE, NAMED, ROW = 56, 19, 26  # px: a lane of a person; the name over a lane; a cure or a stay
CURE_LANES = 3  # as many as a screen has room for
LEAST = 0.6  # per cent: what is drawn of the shortest job
LETTER = 1.05  # per cent of a wide strip that a letter beside a bar takes
ALONE = "By itself"


@dataclass(frozen=True)
class Mark:
    """A thing drawn in its lane, per cent; `words` are cut by the page to the room that there is; `car` is whose."""

    x: float
    width: float
    words: str = ""
    below: str = ""
    kind: str = ""
    tape: str = ""
    car: str = ""
    stripe: str = ""
    late: bool = False

    @property
    def from_right(self) -> bool:
        """Whether the words beside it stand left of its end, for want of room on the right."""
        return self.x > 60

    @property
    def beside(self) -> float:
        """Where the words beside it begin or, with `from_right`, end."""
        return self.x + self.width if self.from_right else self.x

    @property
    def reach(self) -> tuple[float, float]:
        """From where to where it and the words beside it stand."""
        length = LETTER * len(self.words + self.below) + 1
        end = self.x + self.width
        return (min(self.x, end - length), end) if self.from_right else (self.x, max(end, self.x + length))


@dataclass(frozen=True)
class Lane:
    """`kind` is person, cure or hold; `off` are hours in which this person is not in. Heights in px."""

    name: str
    kind: str
    y: int = 0
    off: tuple[Mark, ...] = ()
    marks: tuple[Mark, ...] = ()

    @property
    def inner(self) -> int:
        return LANE - NAMED if self.kind == "person" else ROW

    @property
    def top(self) -> int:
        return self.y + (NAMED if self.name else 0)

    @property
    def height(self) -> int:
        return self.inner + (NAMED if self.name else 0)

    @property
    def template(self) -> str:
        return f"builds/plan/strip_{self.kind}_part.html"


def people_lanes(wall: Wall, axis: FoldedAxis, sessions: Iterable[Session]) -> list[Lane]:
    plan = wall.plan
    blocks: dict[str, list[Mark]] = defaultdict(list)
    for session in sessions:
        if session.start < axis.end and session.end > axis.start and session.end > session.start:
            block = _block(plan, axis, session, wall.jobs[pk_of(session.job)])
            for person in session.people or (ALONE,):
                blocks[person].append(block)
    lanes = [
        Lane(
            plan.people[person.id],
            "person",
            off=() if plan.discreet else tuple(_off(axis, clip(person.windows, plan.problem.slots))),
            marks=tuple(blocks[person.id]),
        )
        for person in plan.problem.people
    ]
    if ALONE in blocks:
        lanes.append(Lane(ALONE, "person", marks=tuple(blocks[ALONE])))
    return lanes


def _block(plan: TimedPlan, axis: FoldedAxis, session: Session, job: Job) -> Mark:
    planned, end = plan.jobs[session.job], plan.placed[session.job].end
    late = planned.due is not None and end > planned.due
    part = f"{session.part} of {session.parts}" if session.parts > 1 else ""
    return Mark(
        *_span(axis, session.start, session.end),
        words=job.title,
        below=", ".join(filter(None, ["late" if late else "", job.vehicle.name, part])),
        kind=planned.rank,
        tape=job.vehicle.tape,
        car=job.vehicle.name,
        stripe=STRIPES[State(job.state)],
        late=late,
    )


def _span(axis: FoldedAxis, start: int, end: int) -> tuple[float, float]:
    """Where it begins, and how wide it is."""
    x = axis.x(start)
    return x, max(LEAST, round(axis.x(end) - x, 2))


def _off(axis: FoldedAxis, windows: Iterable[tuple[int, int]]) -> Iterable[Mark]:
    """Hours drawn wide, since somebody is in, in which this person is not."""
    at = axis.start
    for start, end in (*windows, (axis.end, axis.end)):
        for stretch in axis.stretches:
            begin, until = max(at, stretch.start), min(start, stretch.end)
            if begin < until and not stretch.fold:
                yield Mark(*_span(axis, begin, until))
        at = max(at, end)


def cure_lanes(wall: Wall, axis: FoldedAxis) -> list[Lane]:
    """So that no cure covers another or its words; those beyond the last lane are counted, the list tells them."""
    lanes: list[list[Mark]] = []
    beyond = 0
    for cure in wall.cures:
        job = wall.jobs.get(pk_of(cure.before))
        if job is None or cure.ready <= axis.start or cure.start >= axis.end:
            continue
        mark = _cure(cure, job, wall.plan, axis)
        lane = next((lane for lane in lanes if lane[-1].reach[1] <= mark.reach[0]), None)
        if lane is None and len(lanes) == CURE_LANES:
            beyond += 1
            continue
        if lane is None:
            lanes.append(lane := [])
        lane.append(mark)
    name = f"Curing, and {beyond} more" if beyond else "Curing"
    return [Lane("" if number else name, "cure", marks=tuple(lane)) for number, lane in enumerate(lanes)]


def _cure(cure: PlannedCure, job: Job, plan: TimedPlan, axis: FoldedAxis) -> Mark:
    name = cure.why if cure.why != "wait" else f"after “{job.title}”"
    said = f"{name[0].upper()}{name[1:]}: "
    return Mark(*_span(axis, cure.start, cure.ready), said, below=when_ready(plan, cure), kind="cure")


def hold_lanes(plan: TimedPlan, axis: FoldedAxis) -> list[Lane]:
    """Stations on which a stripped car stays, with the car's name; a lane a stay, so that each is read."""
    return [
        Lane("" if number else station.name or station.id, "hold", marks=(mark,))
        for station in plan.problem.stations
        for number, mark in enumerate(_holds(station.id, plan, axis))
    ]


def _holds(station: str, plan: TimedPlan, axis: FoldedAxis) -> Iterable[Mark]:
    cars = {car.id: car for car in plan.problem.vehicles}
    for vehicle, start, end in sorted(_stays(station, plan), key=lambda stay: stay[1:]):
        if end > axis.start and start < axis.end:
            car = cars[vehicle]
            words = f"{car.name or car.id} stays until {plan.clock.words(end)}"
            yield Mark(*_span(axis, start, end), words, kind="hold")


def _stays(station: str, plan: TimedPlan) -> Iterable[tuple[str, int, int]]:
    """Each car (id) with the slots in which it stays there, what overlaps or touches as one."""
    placed = {place.id: place for place in plan.answer.placed}
    by_car: dict[str, list[tuple[int, int]]] = defaultdict(list)
    for hold in plan.problem.holds:
        if hold.station == station and hold.start in placed:
            end = placed[hold.until].end if hold.until in placed else plan.problem.slots
            by_car[hold.vehicle].append((placed[hold.start].start, end))
    for car, spans in by_car.items():
        yield from ((car, start, end) for start, end in joined([spans]) if start < end)
