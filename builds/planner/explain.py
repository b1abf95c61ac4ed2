"""Why each job of a plan starts when it does: what it waited for, and the chain of waits to now."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from builds.planner.axis import clip
from builds.planner.fields import Windows, quoted
from builds.planner.hindrance import Hindrances, StartReason
from builds.planner.plan import Placed, Plan
from builds.planner.problem import Job, Link, Problem
from builds.planner.words import Names, When, duration, slot_number
from garage.engine.words import listed_in_words


def reasons(problem: Problem, plan: Plan, when: When = slot_number) -> dict[str, StartReason]:
    """For each placed job id, the thing that kept it from starting sooner with its people.

    `when` writes the moment a slot begins.
    """
    witness = _Witness(problem, plan, when)
    return {place.id: witness.reason(place) for place in plan.placed}


def binding_chain(problem: Problem, plan: Plan, job: str, when: When = slot_number) -> tuple[StartReason, ...]:
    """From the job back to now: what it waited for, what that waited for, and so on.

    KeyError for a job that is not in the plan.
    """
    witness = _Witness(problem, plan, when)
    left = {unplaced.id: unplaced.why for unplaced in plan.unplaced}
    chain: list[StartReason] = []
    seen: set[str] = set()
    at: str | None = job
    while at is not None and at not in seen:
        seen.add(at)
        if at in left:
            chain.append(StartReason("unplaced", (at,), f"{witness.names.job(at)} has no place. {left[at]}"))
            at = witness.unplaced_before(at, left)
        else:
            chain.append(witness.reason(witness.places[at]))
            at = chain[-1].job
    return tuple(chain)


class _Witness:
    """The plan laid out by people and stations, to be asked about."""

    def __init__(self, problem: Problem, plan: Plan, when: When) -> None:
        self.problem, self.when, self.names = problem, when, Names(problem)
        self.jobs = {job.id: job for job in problem.jobs}
        self.places = {place.id: place for place in plan.placed}
        self.people = {person.id: person for person in problem.people}
        self.hours = {person.id: self._bits(person.windows) for person in problem.people}
        self.opened = {station.id: self._bits(station.windows) for station in problem.stations}
        self.links: dict[str, list[Link]] = {}
        for link in problem.links:
            self.links.setdefault(link.after, []).append(link)
        self.hindrances = Hindrances(problem, plan, self.names, when)

    def _bits(self, windows: Windows | None) -> int:
        return sum((1 << end) - (1 << begin) for begin, end in clip(windows, self.problem.slots))

    def unplaced_before(self, job: str, left: dict[str, str]) -> str | None:
        """The first job without a place that this one waits for."""
        return next((link.before for link in self.links.get(job, ()) if link.before in left), None)

    def reason(self, place: Placed) -> StartReason:
        """What kept this job from starting sooner."""
        job = self.jobs[place.id]
        if job.pinned is not None:
            said = f"{job.label} is pinned to {self.when(place.start)}."
            return StartReason("pinned", (), said)
        opens, opener = self._opens(job)
        if place.start > opens and job.work:
            held = self._held_up(job, place, opens)
            if held.kind not in ("away", "closed", "windows"):
                return held
            if opener is None:
                return self._first_session(job, place) if job.waits_for else held
            return self._behind(held, job, place, opener, opens)
        if opener is not None:
            return self._after(job, opener)
        if opens > 0:
            return StartReason("earliest", (), self._not_before(job, opens))
        return StartReason("now", (), f"{job.label} waits for nothing.")

    def _not_before(self, job: Job, opens: int) -> str:
        if job.waits_for:
            return f"{job.label} waits for {job.waits_for}."
        return f"{job.label} may not start before {self.when(opens)}."

    def _first_session(self, job: Job, place: Placed) -> StartReason:
        """What it waited for came when nobody was in: the wait is the cause, not the hours."""
        said = f"{job.label} waits for {job.waits_for}; the first session after that begins"
        return StartReason("earliest", (), f"{said} {self.when(place.start)}.")

    def _behind(self, held: StartReason, job: Job, place: Placed, opener: Link, opens: int) -> StartReason:
        """Where it missed a session because of what it waited for, that is the cause behind the hours."""
        before = (1 << opens) - (1 << min(opens, max(0, job.earliest)))
        if not self._starts(job, place) & before:
            return held
        said = self._after(job, opener).sentence
        return replace(held, sentence=f"{held.sentence} {said}", behind=opener.before)

    def _starts(self, job: Job, place: Placed) -> int:
        """The slots at which its people, its stations and its own hours let it begin."""
        allowed = self._allowed(dict(self._hours(job, place)))
        return allowed if job.splits else _runs(allowed, job.work)

    def _allowed(self, hours: Mapping[tuple[str, str], int]) -> int:
        allowed = (1 << self.problem.slots) - 1
        for bits in hours.values():
            allowed &= bits
        return allowed

    def _opens(self, job: Job) -> tuple[int, Link | None]:
        """The first slot that `earliest` and the links allow, and the link that says so."""
        opens, opener = max(0, job.earliest), None
        for link in self.links.get(job.id, ()):
            at = max(link.opens(self.places[link.before].end), self._looked(link.before)[0])
            if at > opens or (at == opens and at > 0 and opener is None):
                opens, opener = at, link
        return opens, opener

    def _looked(self, job: str) -> tuple[int, list[str]]:
        """The first slot by which somebody has looked at a job that is done, and those (names) who are in then."""
        place = self.places[job]
        in_at = {}
        for name in self.jobs[job].eyes:
            if name not in place.people and (bits := self.hours[name] >> max(0, place.end - 1)):
                in_at[name] = max(place.end, place.end - 1 + (bits & -bits).bit_length() - 1)
        first = min(in_at.values(), default=place.end)
        return first, [self.names.person[name] for name, slot in in_at.items() if slot == first]

    def _after(self, job: Job, link: Link) -> StartReason:
        before = self.places[link.before]
        opens = link.opens(before.end)
        said = f"{job.label} waits for {self.names.job(link.before)}, done {self.when(before.end)}"
        looked, who = self._looked(link.before)
        if looked > opens:
            said += f", then for {listed_in_words(who, 'or')}, who looks at it {self.when(looked)}"
        elif opens > before.end:
            wait = duration(opens - before.end, self.problem.slot_minutes)
            said += f", then {wait} to {self.when(opens)}" + (f": {link.why}" if link.why else "")
        elif link.why and self.jobs[link.before].vehicle != job.vehicle:  # else the order of work on the car
            said += f": {link.why}"
        return StartReason("link", (link.before,), f"{said}.")

    def _held_up(self, job: Job, place: Placed, opens: int) -> StartReason:
        """The cause between the slot the job could open and the slot it starts."""
        hours = dict(self._hours(job, place))
        allowed = self._allowed(hours)
        sooner = (1 << place.start) - (1 << opens)
        if not allowed & sooner:
            return self._nobody_in(job, place, opens, hours)
        starts = sooner & (allowed if job.splits else _runs(allowed, job.work))
        if not starts:
            needs = f"{job.label} needs {duration(job.work, self.problem.slot_minutes)} in one go"
            said = f"{needs}. The first session that long begins {self.when(place.start)}."
            return StartReason("windows", (), said)
        began = starts.bit_length() - 1
        until = max(place.start, began + job.work) if job.splits else began + job.work
        other = StartReason("order", (), f"The plan puts other work first, so {job.label} waits.")
        return self.hindrances.latest(job, place, began, until + job.clears) or other

    def _hours(self, job: Job, place: Placed) -> Iterator[tuple[tuple[str, str], int]]:
        for name in place.people:
            yield ("person", name), self.hours[name]
        for name in job.uses:
            yield ("station", name), self.opened[name]
        yield ("windows", job.id), self._bits(job.windows)

    def _nobody_in(self, job: Job, place: Placed, opens: int, hours: dict[tuple[str, str], int]) -> StartReason:
        """No slot since the job opened had people, stations and the job's own hours together."""
        span = (1 << place.start) - (1 << opens)
        start = self.when(place.start)
        shut = [key for key, bits in hours.items() if not bits & span]
        late = shut or [key for key, bits in hours.items() if not bits >> (place.start - 1) & 1]
        kind, name = late[0]
        if kind == "windows":
            return StartReason("windows", (), f"{job.label} cannot be worked at before {start}.")
        if kind == "station":
            said = f"{self.names.station[name]} is closed until {start}, so {job.label} waits."
            return StartReason("closed", (name,), said)
        who = [name for kind, name in late if kind == "person"]
        called = listed_in_words([self.names.person[name] for name in who])
        verb = "are" if len(who) > 1 else "is"
        if job.started:
            said = f"{job.label} is in hand; the plan goes on with it {start}, when {called} {verb} in."
            return StartReason("away", tuple(who), said)
        able = [one.id for one in self.problem.hands_for(job) if not job.skill or job.skill in one.skills]
        if job.skill and job.crew is None and not any(self.hours[k] & span for k in able):
            said = f"Nobody with the skill {quoted(job.skill)} is in before {start}, so {job.label} waits."
            return StartReason("away", tuple(able), said)
        said = f"{called} {verb} not in before {start}, so {job.label} waits."
        return StartReason("away", tuple(who), said)


def _runs(bits: int, length: int) -> int:
    """The slots at which `length` set slots in a row begin."""
    covered = 1
    while covered < length:
        step = min(covered, length - covered)
        bits &= bits >> step
        covered += step
    return bits
