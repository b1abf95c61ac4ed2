"""The lanes of the plan strip: people with their sessions, cures, and stripped cars that stay."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from builds.plan.engine.ids import pk_of
from builds.plan.engine.sessions import PlannedCure, Session, when_ready
from builds.plan.engine.timed_plan import TimedPlan
from builds.plan.facts.wall import Wall
from builds.plan.pages.axis import FoldedAxis
from builds.plan.pages.lettering import LETTER, cut, two_lines
from builds.planner.axis import clip
from builds.steps.pages.job_cards import STRIPES
from builds.work.models.job import Job
from builds.work.models.states import State

LANE, CURE_LANE, HOLD_LANE = 78, 38, 36
NAMES = 92  # px of the names of lanes, left of the drawing
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
            LANE,
            off=tuple(_off(axis, clip(person.windows, plan.problem.slots))),
            marks=tuple(blocks[person.id]),
        )
        for person in plan.problem.people
    ]
    if ALONE in blocks:
        lanes.append(Lane(ALONE, "person", LANE, marks=tuple(blocks[ALONE])))
    return lanes


def _block(plan: TimedPlan, axis: FoldedAxis, session: Session, job: Job) -> Mark:
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


def cure_lanes(wall: Wall, axis: FoldedAxis) -> list[Lane]:
    """As many lanes as it takes for no cure to cover another or its words."""
    lanes: list[list[Mark]] = []
    for cure in wall.cures:
        job = wall.jobs.get(pk_of(cure.before))
        if job is None or cure.ready <= axis.start or cure.start >= axis.end:
            continue
        mark = _cure(cure, job, wall.plan, axis)
        lane = next((lane for lane in lanes if _reach(lane[-1]) <= mark.x), None)
        if lane is None:
            lanes.append(lane := [])
        lane.append(mark)
    return [Lane("" if number else "Curing", "cure", CURE_LANE, marks=tuple(lane)) for number, lane in enumerate(lanes)]


def _cure(cure: PlannedCure, job: Job, plan: TimedPlan, axis: FoldedAxis) -> Mark:
    x = axis.x(cure.start)
    name = cure.why if cure.why != "wait" else f"after “{job.title}”"
    words = f"{name[0].upper()}{name[1:]}: {when_ready(plan, cure)}"
    return Mark(x, max(4, axis.x(cure.ready) - x), (words,), kind="cure")


def _reach(mark: Mark) -> float:
    return mark.x + max(mark.width, 24 + LETTER * len(mark.words[0]))


def hold_lanes(plan: TimedPlan, axis: FoldedAxis) -> list[Lane]:
    """Stations on which a stripped car stays, with the car's name."""
    lanes = []
    for station in plan.problem.stations:
        marks = tuple(_holds(station.id, plan, axis))
        if marks:
            lanes.append(Lane(station.name or station.id, "hold", HOLD_LANE, marks=marks))
    return lanes


def _holds(station: str, plan: TimedPlan, axis: FoldedAxis) -> Iterable[Mark]:
    cars = {car.id: car.name or car.id for car in plan.problem.vehicles}
    placed = {place.id: place for place in plan.answer.placed}
    for hold in plan.problem.holds:
        if hold.station != station or hold.start not in placed:
            continue
        start = placed[hold.start].start
        end = placed[hold.until].end if hold.until in placed else plan.problem.slots
        if end > axis.start and start < axis.end:
            x = axis.x(start)
            width = axis.x(end) - x
            words = cut(f"{cars[hold.vehicle]} stays until {plan.clock.words(end)}", width + 60)
            yield Mark(x, max(4, width), (words,), kind="hold")
