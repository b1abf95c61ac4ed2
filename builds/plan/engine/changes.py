"""What has changed since a plan was tried: jobs, hours, stations, events, weather."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from builds.plan.engine.basis import Basis, Table
from builds.plan.engine.words import count_words
from garage.engine.words import listed_in_words


@dataclass(frozen=True)
class PlanChange:
    """`how` of `what` is not what it was: `the hours or skills` of `Tove`."""

    what: str
    how: str


@dataclass(frozen=True)
class PlanChanges:
    """How many jobs came, went, stopped or are other work than they were; and what else changed."""

    jobs: int = 0
    others: tuple[PlanChange, ...] = ()

    def __bool__(self) -> bool:
        return bool(self.jobs or self.others)

    @property
    def sentence(self) -> str:
        """`Three jobs and the hours or skills of Ines changed since this was tried.`"""
        parts = [count_words(self.jobs, "job", "jobs")] if self.jobs else []
        parts += list(dict.fromkeys(f"{change.how} of {change.what}" for change in self.others))
        if not parts:
            return ""
        said = listed_in_words(parts)
        return f"{said[0].upper()}{said[1:]} changed since this was tried."


def changes_since(made_from: Mapping[str, Any], basis: Basis, at: datetime) -> PlanChanges:
    """Between what a stored plan was made from (`Basis.table`) and how things are at a moment."""
    today = at.date().isoformat()
    old_shop = made_from.get("shop", {})
    # Only where the plan asked for the weather, and there is still something that does.
    weather = _by_day(old_shop, basis.shop, today, "the temperature") if old_shop and basis.shop else []
    others = [
        *_by_day(made_from.get("people", {}), basis.people, today, "the hours or skills"),
        *_differing(made_from.get("stations", {}), basis.stations, "the hours or places"),
        *_cars(made_from.get("cars", {}), basis.cars, at),
        *weather,
    ]
    return PlanChanges(_jobs(made_from.get("jobs", {}), basis.jobs), tuple(others))


def _jobs(old: Table, new: Table) -> int:
    kept = old.keys() & new.keys()
    changed = [job for job in kept if new[job]["digest"] != old[job]["digest"] or _stopped(old[job], new[job])]
    return len(old.keys() ^ new.keys()) + len(changed)


def _stopped(was: Mapping[str, Any], now: Mapping[str, Any]) -> bool:
    return bool(now["state"] == "held" != was["state"])


def _differing(old: Table, new: Table, how: str) -> list[PlanChange]:
    """What came, went, or is no longer as it was."""
    return [
        PlanChange((new.get(row_id) or old[row_id])["called"], how)
        for row_id in {**old, **new}
        if old.get(row_id, {}).get("digest") != new.get(row_id, {}).get("digest")
    ]


def _by_day(old: Table, new: Table, today: str, how: str) -> list[PlanChange]:
    """As `_differing`, and single days besides; those that are over changed nothing that counts."""

    def ahead(row: Mapping[str, Any]) -> dict[str, str]:
        return {day: value for day, value in row.get("days", {}).items() if day >= today}

    changes = _differing(old, new, how)
    told = {change.what for change in changes}
    kept = [row_id for row_id in old if row_id in new]
    for row_id in kept:
        called = new[row_id]["called"]
        if called not in told and ahead(old[row_id]) != ahead(new[row_id]):
            changes.append(PlanChange(called, how))
    return changes


def _cars(old: Table, new: Table, at: datetime) -> list[PlanChange]:
    """An event that has come and gone with nothing after it is no change."""
    still = {car: entered for car, entered in old.items() if car in new or datetime.fromisoformat(entered["due"]) > at}
    return _differing(still, new, "the date or weight")
