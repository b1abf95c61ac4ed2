"""A trial as its page shows it: what was changed, and the two plans side by side."""

from collections.abc import Iterator
from dataclasses import dataclass

from builds.plan.engine.outcome import CarOutcome, outcome
from builds.plan.engine.stored import Stored
from builds.plan.models import Plan
from builds.plan.pages.moves import MovedJob, moves
from builds.remedies.actions.answers import TrialAnswer
from builds.remedies.deeds.deed import cautions_of
from builds.remedies.deeds.kinds import parse_all
from garage.models import Entry

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
        if was.in_time is not now.in_time and None not in (was.in_time, now.in_time):
            return "better" if now.in_time else "worse"
        return ""


def _words(outcome: CarOutcome) -> str:
    """`By the plan ready Thu 20:30, in time.`"""
    told_by = "misses it: " if outcome.proved else "" if outcome.in_time is None else "by the plan "
    sentence = f"{told_by}{outcome.sentence}"
    return f"{sentence[0].upper()}{sentence[1:]}"


@dataclass(frozen=True)
class TrialPage:
    """Late jobs by title, in quotes: `mended` are late as planned now and no more then, `spoilt` the other way
    round, `still` either way. `refusal` is why whoever looks may not keep it; `stale` what changed
    since it was tried.
    """

    row: Plan
    told: tuple[str, ...]
    cautions: tuple[str, ...]
    code: str
    cars: tuple[CarLine, ...]
    moves: tuple[MovedJob, ...]
    mended: tuple[str, ...]
    spoilt: tuple[str, ...]
    still: tuple[str, ...]
    refusal: str
    stale: str


def trial_page(answer: TrialAnswer) -> TrialPage:
    trial = answer.trial
    was, now = _late(trial.before), _late(trial.after)
    return TrialPage(
        row=trial.row,
        told=trial.note.told,
        cautions=cautions_of(parse_all(trial.note.codes)),
        code=trial.note.codes,
        cars=tuple(_cars(answer)),
        moves=tuple(moves(trial.after)),
        mended=tuple(title for name, title in was.items() if name not in now),
        spoilt=tuple(title for name, title in now.items() if name not in was),
        still=tuple(title for name, title in now.items() if name in was),
        refusal=answer.refusal,
        stale=trial.changed.sentence,
    )


def _cars(answer: TrialAnswer) -> Iterator[CarLine]:
    """Every entered car, those that the trial enters or leaves at home among them."""
    before, after = answer.trial.before, answer.trial.after
    for entry in answer.trial.entries:
        then = AT_HOME if entry.pk in answer.given_up else _outcome(after, entry, answer)
        yield CarLine(entry, _outcome(before, entry, answer), then)
    for entry in answer.entered:
        yield CarLine(entry, AT_HOME, _outcome(after, entry, answer))


def _outcome(plan: Stored, entry: Entry, answer: TrialAnswer) -> CarOutcome:
    jobs = answer.trial.must_do.get(entry.vehicle_id, [])
    return outcome(plan, jobs, entry.event.due_at, answer.at)


def _late(plan: Stored) -> dict[str, str]:
    """Titles in quotes by id of the jobs that end past their date, or have one and no place."""
    return {
        name: job.label
        for name, job in plan.jobs.items()
        if job.due is not None and (name in plan.unplaced or plan.placed[name].end > job.due)
    }
