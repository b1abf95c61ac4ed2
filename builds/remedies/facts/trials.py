"""A trial as it is stored: what was tried, and the two plans beside each other."""

from dataclasses import dataclass
from datetime import datetime
from typing import Any

from builds.plan.engine.changes import PlanChanges, changes_since
from builds.plan.engine.outcome import MustDoJob
from builds.plan.engine.stored import Stored
from builds.plan.facts.basis import basis_of
from builds.plan.facts.must_do import must_do
from builds.plan.facts.rows import fetch
from builds.plan.facts.stored import read
from builds.plan.models import Plan
from garage.facts.entries import kept_ahead
from garage.models import Entry, Garage


@dataclass(frozen=True)
class TrialNote:
    """What the row of a trial keeps besides its plan.

    `codes` are those of its deeds, `told` the same in words as they were when it was tried, `base`
    the pk of the plan it is compared with.
    """

    codes: str
    told: tuple[str, ...]
    base: int

    def table(self) -> dict[str, Any]:
        return {"deeds": self.codes, "told": self.told, "base": self.base}


def note_of(row: Plan) -> TrialNote | None:
    """None for a plan that is no trial, and for the one that a trial is compared with."""
    table = row.made_from.get("trial")
    return TrialNote(table["deeds"], tuple(table["told"]), table["base"]) if table else None


@dataclass(frozen=True)
class Trial:
    """`before` is the plan of the garage as it is, `after` the one with the deeds done.

    `entries` are those ahead, `must_do` the open safety and needed jobs by vehicle, `changed` what is
    not as it was any more since it was tried.
    """

    row: Plan
    note: TrialNote
    before: Stored
    after: Stored
    entries: tuple[Entry, ...]
    must_do: dict[int, list[MustDoJob]]
    changed: PlanChanges


def base_of(row: Plan, garage: Garage) -> Plan | None:
    """The plan that a trial is compared with; None for what is no trial, and when that plan is gone."""
    note = note_of(row)
    return Plan.objects.in_garage(garage).trials().filter(pk=note.base).first() if note else None


def load_trial(row: Plan, garage: Garage, at: datetime) -> Trial | None:
    """None for what is no trial, and when the plan it is compared with is gone."""
    note, base = note_of(row), base_of(row, garage)
    if note is None or base is None:
        return None
    rows = fetch(garage, at)
    return Trial(
        row=row,
        note=note,
        before=read(base, garage),
        after=read(row, garage),
        entries=tuple(kept_ahead(garage, at)),
        must_do=must_do(rows.work.jobs.values()),
        changed=changes_since(base.made_from, basis_of(rows), at),
    )
