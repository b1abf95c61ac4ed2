"""The plan as a list in working order: day by day, person by person."""

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date, timedelta

from django.urls import reverse

from builds.plan.engine.ids import id_of, is_of, pk_of
from builds.plan.engine.sessions import PlannedCure, Session, when_ready
from builds.plan.facts.wall import Wall
from builds.plan.pages.recoat import shut_windows
from builds.steps.pages.job_cards import STRIPES
from builds.work.models.job import Job
from builds.work.models.states import State
from garage.engine.words import duration_words, listed_in_words

ALONE = "Runs by itself"
CURING = "curing"


@dataclass(frozen=True)
class PlanLine:
    """One session of a job, or a cure, as a row of the list."""

    since: str
    until: str
    length: str
    title: str
    url: str
    car: str
    tape: str
    rank: str = ""
    urgent_from: str = ""
    stripe: str = ""
    beside: str = ""
    part: str = ""
    late: bool = False
    why: str = ""
    notes: tuple[str, ...] = ()


@dataclass
class PersonDay:
    """What one person does on one day; `curing` is what runs by itself."""

    name: str
    lines: list[PlanLine] = field(default_factory=list)
    curing: bool = False


@dataclass(frozen=True)
class Day:
    label: str
    groups: tuple[PersonDay, ...]


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
        self.nights = {name: f"In {words}" for name, words in names.items()}
        self.today = wall.rows.at.astimezone(wall.rows.zone).date()

    def days(self) -> tuple[Day, ...]:
        by_day: dict[date, dict[str, PersonDay]] = defaultdict(dict)
        for session, job in self._sessions():
            day = self._day(session.start)
            for person in session.people or (self._nobodys(session),):
                name = self.plan.people.get(person) or self.nights.get(person, person)
                group = by_day[day].setdefault(person, PersonDay(name))
                group.lines.append(self._session_line(session, job, person))
        for cure, job in self._cures():
            day = max(self._day(cure.start), self.today)
            group = by_day[day].setdefault(CURING, PersonDay("Curing", curing=True))
            group.lines.append(self._cure_line(cure, job))
        order = [*self.plan.people, *self.nights, ALONE, CURING]
        return tuple(
            Day(self._label(day), tuple(groups[who] for who in sorted(groups, key=order.index)))
            for day, groups in sorted(by_day.items())
        )

    def _nobodys(self, session: Session) -> str:
        """Who is said to do what nobody at home does: whoever is at an event overnight, else nobody."""
        there = self.nights.keys() & self.plan.jobs[session.job].uses.keys()
        return min(there, default=ALONE)

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

    def _label(self, day: date) -> str:
        label = f"{day:%A} {day.day} {day:%B}"
        near = {self.today: "Today", self.today + timedelta(days=1): "Tomorrow"}.get(day)
        return f"{near}, {label}" if near else label

    def _session_line(self, session: Session, job: Job, person: str) -> PlanLine:
        planned, work = self.plan.jobs[session.job], self.wall.rows.work
        end = self.plan.placed[session.job].end
        others = [self.plan.people[other] for other in session.people if other != person]
        reason = self.plan.reasons.get(session.job)
        return PlanLine(
            since=self._time(session.start),
            until=self._time(session.end),
            length=self._length(session.end - session.start),
            title=job.title,
            url=reverse("job_page", args=[job.pk]),
            car=job.vehicle.name,
            tape=job.vehicle.tape,
            rank=job.rank,
            urgent_from=work.urgent_from(job.pk) if job.pk in work.jobs else "",
            stripe=STRIPES[State(job.state)],
            beside=f"with {listed_in_words(others)}" if others else "",
            part=f"{session.part} of {session.parts}" if session.parts > 1 else "",
            late=planned.due is not None and end > planned.due,
            why=own_words(reason.sentence, planned.label) if reason and session.part == 1 else "",
            notes=self._notes(job) if session.part == 1 else (),
        )

    def _notes(self, job: Job) -> tuple[str, ...]:
        """What the planner does not know: holds, signatures, coats that were left too long."""
        notes = []
        if shut := self.shut.get(id_of("job", job.pk)):
            notes.append(shut)
        if job.state == State.HELD:
            notes.append(f"On hold: {job.state_note or 'release it first'}")
        for point in self.wall.rows.work.unsigned.get(job.pk, ()):
            said = "Needs a signature first" if job.state == State.HELD else "Ends at a hold point"
            notes.append(f"{said}: {point.what}")
        return tuple(notes)

    def _cure_line(self, cure: PlannedCure, job: Job) -> PlanLine:
        after = self.plan.jobs.get(cure.after)
        return PlanLine(
            since=self._time(cure.start),
            until=when_ready(self.plan, cure),
            length=self._length(cure.ready - cure.start),
            title=job.title,
            url=reverse("job_page", args=[job.pk]),
            car=job.vehicle.name,
            tape=job.vehicle.tape,
            stripe="cure",
            why=f"Then {after.label} may start." if after else "",
            notes=(cure.why,) if cure.why != "wait" else (),
        )

    def _day(self, slot: int) -> date:
        return self.plan.clock.moment(slot).date()

    def _time(self, slot: int) -> str:
        return f"{self.plan.clock.moment(slot):%H:%M}"

    def _length(self, slots: int) -> str:
        return duration_words(slots * self.plan.problem.slot_minutes)
