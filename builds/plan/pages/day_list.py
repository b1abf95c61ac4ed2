"""The plan as a list in working order: day by day, each line with who, on what and why then."""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from django.urls import reverse

from builds.plan.engine.ids import id_of, is_of, pk_of
from builds.plan.engine.sessions import PlannedCure, Session, when_ready
from builds.plan.engine.why import not_ordered
from builds.plan.facts.wall import Wall
from builds.plan.pages.recoat import shut_windows
from builds.steps.pages.job_cards import STRIPES
from builds.work.engine.blocks import NOT_IN_SIGHT
from builds.work.models.job import Job
from builds.work.models.states import State
from garage.engine.moments import day_words
from garage.engine.words import duration_words, listed_in_words, work_words

ALONE, EYES = "by itself", "a second pair of eyes"
MINUTE = timedelta(minutes=1)
OPENED = 3  # lines of the days that are open, as the page opens


@dataclass(frozen=True)
class PlanLine:
    """One session of a job, or a cure (`curing`), as a row of the list; `minutes` of all who are on it together."""

    job: int
    since: str
    until: str
    length: str
    minutes: int
    title: str
    url: str
    car: str
    tape: str
    who: str = ""
    where: str = ""
    rank: str = ""
    urgent_from: str = ""
    stripe: str = ""
    part: str = ""
    late: bool = False
    why: str = ""
    notes: tuple[str, ...] = ()
    curing: bool = False


@dataclass(frozen=True)
class Day:
    """`near` is Today, Tomorrow or empty; `holds` says how much is in it; `shown` lines stand open, or all of them."""

    iso: str
    near: str
    label: str
    short: str
    lines: tuple[PlanLine, ...]
    shown: int | None = None

    @property
    def first(self) -> tuple[PlanLine, ...]:
        return self.lines[: self.shown]

    @property
    def rest(self) -> tuple[PlanLine, ...]:
        return self.lines[len(self.first) :]

    @property
    def title(self) -> str:
        return f"{self.near}, {self.label}" if self.near else self.label

    @property
    def holds(self) -> str:
        return holds_words(self.lines)

    @property
    def more(self) -> str:
        return holds_words(self.rest)


def opened(chosen: Sequence[Day]) -> Iterator[Day]:
    """With so few lines open that together they stay within `OPENED`; each keeps one."""
    left = OPENED
    for later, day in zip(reversed(range(len(chosen))), chosen, strict=True):
        left -= (shown := max(1, min(len(day.lines), left - later)))
        yield replace(day, shown=shown)


def holds_words(lines: Sequence[PlanLine]) -> str:
    """`4 jobs, 9 h, 1 late, 2 cures`; hours are those of all people together."""
    work = [line for line in lines if not line.curing]
    jobs, late = len({line.job for line in work}), len({line.job for line in work if line.late})
    cures = len(lines) - len(work)
    minutes = sum(line.minutes for line in work)
    said = [f"{jobs} job{'s' * (jobs != 1)}"] if jobs else []
    said += [work_words(minutes)] if minutes else []
    said += [f"{late} late"] if late else []
    said += [f"{cures} cure{'s' * (cures != 1)}"] if cures else []
    return ", ".join(said)


def days(wall: Wall) -> tuple[Day, ...]:
    """From today on."""
    return _Days(wall).days()


def own_words(sentence: str, title: str) -> str:
    """A reason beside the title it is about, which need not say it again."""
    said = sentence.removesuffix(f", so {title} waits.").removeprefix(f"{title} ").rstrip(".")
    return f"{said[:1].upper()}{said[1:]}."


class _Days:
    """Turns the plan on the wall into lines."""

    def __init__(self, wall: Wall) -> None:
        self.wall, self.plan = wall, wall.plan
        self.shut = shut_windows(wall.plan, wall.rows)
        stations = self.plan.problem.stations
        names = {station.id: station.name or "" for station in stations if is_of("night", station.id)}
        self.places = {station.id: station.name or "" for station in stations if is_of("station", station.id)}
        self.nights = {name: f"in {words}" for name, words in names.items()}
        self.today = wall.rows.at.astimezone(wall.rows.zone).date()

    def days(self) -> tuple[Day, ...]:
        by_day: dict[date, list[PlanLine]] = defaultdict(list)
        for session, job in self._sessions():
            by_day[self._day(session.start)].append(self._session_line(session, job))
        for cure, job in self._cures():
            by_day[max(self._day(cure.start), self.today)].append(self._cure_line(cure, job))
        near = {self.today: "Today", self.today + timedelta(days=1): "Tomorrow"}
        return tuple(
            Day(day.isoformat(), near.get(day, ""), f"{day:%A} {day.day} {day:%B}", day_words(day), tuple(lines))
            for day, lines in sorted(by_day.items())
        )

    def _who(self, session: Session) -> str:
        """Names; of what nobody at home does, the night of an event in which it is done."""
        if session.people:
            return listed_in_words([self.plan.people[person] for person in session.people])
        there = self.nights.keys() & self.plan.jobs[session.job].uses.keys()
        return self.nights[min(there)] if there else ALONE

    def _sessions(self) -> Iterator[tuple[Session, Job]]:
        for session in self.wall.sessions:
            job = self.wall.jobs.get(pk_of(session.job))
            if job and self._day(session.end) >= self.today:
                yield session, job

    def _cures(self) -> Iterator[tuple[PlannedCure, Job]]:
        for cure in self.wall.cures:
            job = self.wall.jobs.get(pk_of(cure.before))
            if job and self._day(cure.ready) >= self.today:
                yield cure, job

    def _session_line(self, session: Session, job: Job) -> PlanLine:
        planned, work = self.plan.jobs[session.job], self.wall.rows.work
        end, slots = self.plan.placed[session.job].end, session.end - session.start
        reason = self.plan.reasons.get(session.job)
        return PlanLine(
            job=job.pk,
            since=self._time(session.start),
            until=self._time(session.end) if slots else "",
            length=duration_words(self._minutes(slots)) if slots else "",
            minutes=self._minutes(slots) * len(session.people),
            title=job.title,
            url=reverse("job_page", args=[job.pk]),
            car=job.vehicle.name,
            tape=job.vehicle.tape,
            who=EYES if job.looked_for else self._who(session),
            where=", ".join(filter(None, map(self.places.get, planned.uses))),
            rank=job.rank,
            urgent_from=work.urgent_from(job.pk) if job.pk in work.jobs else "",
            stripe=STRIPES[State(job.state)],
            part=f"{session.part} of {session.parts}" if session.parts > 1 else "",
            late=planned.due is not None and end > planned.due,
            why=own_words(reason.sentence, planned.label) if reason and session.part == 1 else "",
            notes=self._notes(job) if session.part == 1 else (),
        )

    def _notes(self, job: Job) -> tuple[str, ...]:
        """What the planner does not know: holds, signatures, coats that were left too long, parts to order."""
        notes, held = [], job.state == State.HELD
        if shut := self.shut.get(id_of("job", job.pk)):
            notes.append(shut)
        if job.looked_for:
            notes.append(f"Done. {job.state_note}")
        elif held:
            notes.append(f"On hold: {job.state_note or 'release it first'}")
        for point in self.wall.rows.work.unsigned.get(job.pk, ()):
            if not (held and point.what in job.state_note):
                notes.append(f"{'Needs a signature first' if held else 'Ends at a hold point'}: {point.what}")
        needs = self.wall.rows.needs.get(job.pk, ())
        notes += [not_ordered(need.what, need.quantity) for need in needs if need.pk in self.wall.rows.to_order]
        return tuple(note.rstrip(".") for note in notes)

    def _cure_line(self, cure: PlannedCure, job: Job) -> PlanLine:
        after, clock, until = self.plan.jobs.get(cure.after), self.plan.clock, cure.until
        began_before = self._day(cure.start) < self.today
        return PlanLine(
            job=job.pk,
            since=clock.said(cure.since) if began_before else f"{cure.since.astimezone(clock.zone):%H:%M}",
            until=when_ready(self.plan, cure),
            length=duration_words((until - cure.since) // MINUTE) if until and until != NOT_IN_SIGHT else "",
            minutes=0,
            title=job.title,
            url=reverse("job_page", args=[job.pk]),
            car=job.vehicle.name,
            tape=job.vehicle.tape,
            why=f"Then {after.label} may start." if after else "",
            notes=(f"{cure.why[:1].upper()}{cure.why[1:]}",) if cure.why != "wait" else (),
            curing=True,
        )

    def _day(self, slot: int) -> date:
        return self.plan.clock.moment(slot).date()

    def _time(self, slot: int) -> str:
        return f"{self.plan.clock.moment(slot):%H:%M}"

    def _minutes(self, slots: int) -> int:
        return slots * self.plan.problem.slot_minutes
