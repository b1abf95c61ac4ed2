"""What has changed since a plan was made: jobs, hours, stations, events, weather."""

from dataclasses import dataclass
from datetime import datetime
from typing import Any

from builds.cure.facts.plan_clock import pk_of
from builds.plan.facts.basis import Basis
from builds.planner.words import listed_in_words
from builds.work.models.job import Job
from builds.work.models.states import FINISHED_STATES, State

NUMBERS = (
    *("No", "One", "Two", "Three", "Four", "Five", "Six"),
    *("Seven", "Eight", "Nine", "Ten", "Eleven", "Twelve"),
)


def count_words(count: int, one: str, many: str) -> str:
    """`Three jobs`, `One job`, `14 jobs`."""
    number = NUMBERS[count] if count < len(NUMBERS) else str(count)
    return f"{number} {one if count == 1 else many}"


@dataclass(frozen=True)
class PlanChange:
    """`what` is the row's name, `how` what became of it."""

    what: str
    how: str

    def __str__(self) -> str:
        return f"{self.what}: {self.how}"


@dataclass(frozen=True)
class PlanChanges:
    jobs: tuple[PlanChange, ...] = ()
    others: tuple[PlanChange, ...] = ()

    def __bool__(self) -> bool:
        return bool(self.jobs or self.others)

    @property
    def sentence(self) -> str:
        """`Three jobs and the hours of Ines changed since this plan.`"""
        parts = [count_words(len(self.jobs), "job", "jobs")] if self.jobs else []
        parts += list(dict.fromkeys(f"{change.how} of {change.what}" for change in self.others))
        if not parts:
            return ""
        said = listed_in_words(parts)
        return f"{said[0].upper()}{said[1:]} changed since this plan."


def changes_since(made_from: dict[str, Any], basis: Basis, at: datetime) -> PlanChanges:
    """Between what a stored plan was made from and how things are; one query at most."""
    today = at.date().isoformat()
    others = [
        *_days(made_from.get("people", {}), basis.people, today, "the hours or skills"),
        *_rows(made_from.get("stations", {}), basis.stations, "the hours or places"),
        *_cars(made_from.get("cars", {}), basis.cars, at),
        *_shop(made_from.get("shop", {}), basis.shop, today),
    ]
    return PlanChanges(tuple(_jobs(made_from.get("jobs", {}), basis.jobs)), tuple(others))


def _jobs(old: dict[str, Any], new: dict[str, Any]) -> list[PlanChange]:
    gone = [name for name in old if name not in new]
    states = dict(Job.objects.filter(pk__in=[pk_of(name) for name in gone]).values_list("pk", "state") if gone else ())
    found = [PlanChange(old[name]["called"], _end(states.get(pk_of(name)))) for name in gone]
    for name, row in new.items():
        if name not in old:
            found.append(PlanChange(row["called"], "new"))
        elif row["state"] != old[name]["state"] and row["state"] == State.HELD:
            found.append(PlanChange(row["called"], "on hold"))
        elif row["digest"] != old[name]["digest"]:
            found.append(PlanChange(row["called"], "changed"))
    return found


def _end(state: str | None) -> str:
    if state in FINISHED_STATES:
        return "finished"
    return "dropped" if state == State.DROPPED else "removed"


def _rows(old: dict[str, Any], new: dict[str, Any], how: str) -> list[PlanChange]:
    return [
        PlanChange((new.get(name) or old[name])["called"], how)
        for name in {**old, **new}
        if old.get(name, {}).get("digest") != new.get(name, {}).get("digest")
    ]


def _shop(old: dict[str, Any], new: dict[str, Any], today: str) -> list[PlanChange]:
    """Only where the plan asked for the weather, and there is still something that does."""
    return _days(old, new, today, "the temperature") if old and new else []


def _days(old: dict[str, Any], new: dict[str, Any], today: str, how: str) -> list[PlanChange]:
    """Single days that are over changed nothing that still counts."""

    def ahead(row: dict[str, Any]) -> dict[str, str]:
        return {day: value for day, value in row.get("days", {}).items() if day >= today}

    found = _rows(old, new, how)
    told = {change.what for change in found}
    for name in old.keys() & new.keys():
        called = new[name]["called"]
        if called not in told and ahead(old[name]) != ahead(new[name]):
            found.append(PlanChange(called, how))
    return found


def _cars(old: dict[str, Any], new: dict[str, Any], at: datetime) -> list[PlanChange]:
    """An event that has come and gone with nothing after it is no change."""
    still = {name: row for name, row in old.items() if name in new or datetime.fromisoformat(row["due"]) > at}
    return _rows(still, new, "the date or weight")
