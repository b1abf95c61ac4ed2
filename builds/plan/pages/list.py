"""The plan as a list in working order: day by day, person by person."""

from collections import defaultdict
from dataclasses import dataclass, field
from datetime import date, timedelta

from django.urls import reverse

from builds.cure.facts.plan_clock import name_of, pk_of
from builds.plan.facts.rows import PlanRows
from builds.plan.facts.sessions import PlannedCure, Session, cures, ready_words, sessions
from builds.plan.facts.stored import Stored
from builds.plan.pages.recoat import shut_windows
from builds.planner.explain import Reason, reasons
from builds.planner.words import listed_in_words
from builds.steps.pages.job_cards import STRIPES
from builds.work.models.job import Job
from builds.work.models.states import State
from garage.engine.words import duration_words
from garage.models import Garage

ALONE = "Runs by itself"


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


@dataclass(frozen=True)
class LeftOut:
    """A job without a place, and what to do about it."""

    title: str
    url: str
    car: str
    tape: str
    rank: str
    why: str


@dataclass(frozen=True)
class PlanList:
    days: tuple[Day, ...]
    left_out: tuple[LeftOut, ...]


def own_words(sentence: str, title: str) -> str:
    """A reason beside the title it is about, which need not say it again."""
    said = sentence.removesuffix(f", so {title} waits.").removeprefix(f"{title} ").rstrip(".")
    return f"{said[:1].upper()}{said[1:]}."


class Lister:
    """Turns a stored plan into lines, with the jobs as they are now."""

    def __init__(self, plan: Stored, rows: PlanRows, jobs: dict[int, Job]) -> None:
        self.plan, self.rows, self.jobs = plan, rows, jobs
        self.people = {row.id: row.name or row.id for row in plan.problem.people}
        self.why: dict[str, Reason] = reasons(plan.problem, plan.answer, plan.clock.words)
        self.shut = shut_windows(plan, rows)
        self.today = rows.at.astimezone(rows.zone).date()

    def days(self) -> tuple[Day, ...]:
        found: dict[date, dict[str, PersonDay]] = defaultdict(dict)
        for session in sessions(self.plan):
            job = self.jobs.get(pk_of(session.job))
            day = self.plan.clock.moment(session.start).date()
            if job is None or self.plan.clock.moment(session.end).date() < self.today:
                continue
            for person in session.people or (ALONE,):
                name = self.people.get(person, person)
                group = found[day].setdefault(person, PersonDay(name))
                group.lines.append(self._line(session, job, person))
        for cure in cures(self.plan, self.rows):
            job = self.jobs.get(pk_of(cure.before))
            if job is None or self.plan.clock.moment(cure.ready).date() < self.today:
                continue
            day = max(self.plan.clock.moment(cure.start).date(), self.today)
            group = found[day].setdefault("curing", PersonDay("Curing", curing=True))
            group.lines.append(self._cure(cure, job))
        order = [*self.people, ALONE, "curing"]
        return tuple(
            Day(
                self._label(day),
                tuple(groups[name] for name in sorted(groups, key=order.index)),
            )
            for day, groups in sorted(found.items())
        )

    def left_out(self) -> tuple[LeftOut, ...]:
        found = []
        for row in self.plan.unplaced.values():
            job = self.rows.work.jobs.get(pk_of(row.id))
            if job:
                car = job.vehicle
                url = reverse("job_page", args=[job.pk])
                found.append(LeftOut(job.title, url, car.name, car.tape, job.rank, row.why))
        return tuple(found)

    def _label(self, day: date) -> str:
        label = f"{day:%A} {day.day} {day:%B}"
        near = {self.today: "Today", self.today + timedelta(days=1): "Tomorrow"}.get(day)
        return f"{near}, {label}" if near else label

    def _line(self, session: Session, job: Job, person: str) -> PlanLine:
        planned = self.plan.jobs[session.job]
        end = self.plan.placed[session.job].end
        others = [self.people[name] for name in session.people if name != person]
        reason = self.why.get(session.job)
        return PlanLine(
            since=self._time(session.start),
            until=self._time(session.end),
            length=self._length(session.end - session.start),
            title=job.title,
            url=reverse("job_page", args=[job.pk]),
            car=job.vehicle.name,
            tape=job.vehicle.tape,
            rank=job.rank,
            urgent_from=self.rows.work.urgent_from(job.pk) if job.pk in self.rows.work.jobs else "",
            stripe=STRIPES[State(job.state)],
            beside=f"with {listed_in_words(others)}" if others else "",
            part=f"{session.part} of {session.parts}" if session.parts > 1 else "",
            late=planned.due is not None and end > planned.due,
            why=own_words(reason.sentence, planned.label) if reason and session.part == 1 else "",
            notes=self._notes(job) if session.part == 1 else (),
        )

    def _notes(self, job: Job) -> tuple[str, ...]:
        """What the planner does not know: holds, signatures, coats that were left too long."""
        work, notes = self.rows.work, []
        if shut := self.shut.get(name_of("job", job.pk)):
            notes.append(shut)
        if job.state == State.HELD:
            notes.append(f"On hold: {job.state_note or 'release it first'}")
        for point in work.unsigned.get(job.pk, ()):
            first = job.state == State.HELD
            said = "Needs a signature first" if first else "Ends at a hold point"
            notes.append(f"{said}: {point.what}")
        return tuple(notes)

    def _cure(self, cure: PlannedCure, job: Job) -> PlanLine:
        after = self.plan.jobs.get(cure.after)
        return PlanLine(
            since=self._time(cure.start),
            until=ready_words(self.plan, cure),
            length=self._length(cure.ready - cure.start),
            title=job.title,
            url=reverse("job_page", args=[job.pk]),
            car=job.vehicle.name,
            tape=job.vehicle.tape,
            stripe="cure",
            why=f"Then {after.label} may start." if after else "",
            notes=(cure.why,) if cure.why != "wait" else (),
        )

    def _time(self, slot: int) -> str:
        return f"{self.plan.clock.moment(slot):%H:%M}"

    def _length(self, slots: int) -> str:
        return duration_words(slots * self.plan.problem.slot_minutes)


def plan_list(plan: Stored, rows: PlanRows, jobs: dict[int, Job]) -> PlanList:
    """`jobs` are those of the plan as they are now, by pk, cars attached; no query."""
    lister = Lister(plan, rows, jobs)
    return PlanList(lister.days(), lister.left_out())


def jobs_of_plan(plan: Stored, rows: PlanRows, garage: Garage) -> dict[int, Job]:
    """The plan's jobs as they are now, finished ones included; one query for those."""
    known = rows.work.jobs
    wanted = {pk_of(name) for name in plan.jobs} | {joint.before for joint in rows.work.links}
    over = Job.objects.in_garage(garage).filter(pk__in=wanted - known.keys())
    over = over.select_related("vehicle")
    return known | {job.pk: job for job in over}
