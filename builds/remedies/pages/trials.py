"""A trial as its page shows it: what was changed, and the two plans side by side."""

from dataclasses import dataclass
from datetime import datetime

from builds.plan.engine.outcome import CarOutcome, MustDoJob, outcome
from builds.plan.facts.basis import basis_of
from builds.plan.facts.changes import changes_since
from builds.plan.facts.must_do import must_do
from builds.plan.facts.rows import fetch
from builds.plan.facts.stored import Stored, read
from builds.plan.models import Plan
from builds.plan.pages.moves import MovedJob, moves
from builds.remedies.facts.deeds import Deed, parse_all
from builds.remedies.pages.deed_words import Book
from builds.work.models.job import Job
from garage.models import Entry, Membership

AT_HOME = CarOutcome(None, "stays at home.")


@dataclass(frozen=True)
class CarLine:
    """A car at an event, before and after; `became` is better, worse or empty."""

    entry: Entry
    before: CarOutcome
    after: CarOutcome

    @property
    def was(self) -> str:
        return _words(self.before)

    @property
    def then(self) -> str:
        return _words(self.after)

    @property
    def became(self) -> str:
        was, now = self.before, self.after
        if was.makes_it is not now.makes_it and None not in (was.makes_it, now.makes_it):
            return "better" if now.makes_it else "worse"
        return ""


def _words(found: CarOutcome) -> str:
    """`Makes it: ready Thu 20:30, 1 h of working time to spare.`"""
    verb = {True: "Makes it: ", False: "Misses it: ", None: ""}[found.makes_it]
    said = f"{verb}{found.sentence}"
    return f"{said[0].upper()}{said[1:]}"


@dataclass(frozen=True)
class TrialPage:
    """Late jobs by title: `mended` are late as planned now and no more then, `spoilt` the other way
    round, `still` either way. `refusal` is why whoever looks may not keep it; `stale` what changed
    since it was tried.
    """

    row: Plan
    told: tuple[str, ...]
    code: str
    cars: tuple[CarLine, ...]
    moves: tuple[MovedJob, ...]
    mended: tuple[str, ...]
    spoilt: tuple[str, ...]
    still: tuple[str, ...]
    refusal: str
    stale: str

    @property
    def stale_words(self) -> str:
        return f"{self.stale.replace('since this plan', 'since this was tried')} Try it again."


def deeds_of(row: Plan) -> tuple[Deed, ...]:
    return parse_all(row.made_from["trial"]["deeds"])


def is_whole(row: Plan) -> bool:
    """A trial with deeds, and not the plan beside it."""
    return row.is_trial and "deeds" in row.made_from["trial"]


def load_trial(row: Plan, by: Membership, at: datetime) -> TrialPage | None:
    """None when the plan it is compared with is gone."""
    garage, deeds = by.garage, deeds_of(row)
    beside = Plan.objects.in_garage(garage).trials().filter(pk=row.made_from["trial"]["base"])
    base = beside.first()
    if base is None:
        return None
    before, after, rows = read(base, garage), read(row, garage), fetch(garage, at)
    was, now = _late(before), _late(after)
    return TrialPage(
        row,
        tuple(row.made_from["trial"]["told"]),
        row.made_from["trial"]["deeds"],
        tuple(_cars(by, deeds, before, after, at)),
        tuple(moves(after)),
        tuple(title for name, title in was.items() if name not in now),
        tuple(title for name, title in now.items() if name not in was),
        tuple(title for name, title in now.items() if name in was),
        _refusal(deeds, by),
        changes_since(base.made_from, basis_of(rows), at).sentence,
    )


def _cars(by: Membership, deeds: tuple[Deed, ...], before: Stored, after: Stored, at: datetime) -> list[CarLine]:
    """Every entered car, those that the trial enters or leaves at home among them."""
    garage, book = by.garage, Book(by.garage)
    jobs = must_do(Job.objects.in_garage(garage).open())
    home = {deed.numbers[0] for deed in deeds if deed.kind == "home"}
    ahead = Entry.objects.in_garage(garage).upcoming(at).kept().select_related("event", "vehicle")
    found = [
        CarLine(
            entry,
            _outcome(before, entry, jobs, at),
            AT_HOME if entry.pk in home else _outcome(after, entry, jobs, at),
        )
        for entry in ahead
    ]
    for deed in deeds:
        event, vehicle = (*deed.numbers, 0, 0)[:2]
        if deed.kind == "enter" and event in book.events and vehicle in book.vehicles:
            entry = Entry(event=book.events[event], vehicle=book.vehicles[vehicle])
            found.append(CarLine(entry, AT_HOME, _outcome(after, entry, jobs, at)))
    return found


def _outcome(plan: Stored, entry: Entry, jobs: dict[int, list[MustDoJob]], at: datetime) -> CarOutcome:
    return outcome(plan, jobs.get(entry.vehicle_id, []), entry.event.due_at, at)


def _late(plan: Stored) -> dict[str, str]:
    """Titles by name of the jobs that end past their date, or have one and no place."""
    return {
        name: job.label
        for name, job in plan.jobs.items()
        if job.due is not None and (name in plan.unplaced or plan.placed[name].end > job.due)
    }


def _refusal(deeds: tuple[Deed, ...], by: Membership) -> str:
    book = Book(by.garage)
    try:
        return next((said for deed in deeds if (said := book.refusal(deed, by))), "")
    except KeyError:
        return "Something that was tried is not there any more: try anew."
