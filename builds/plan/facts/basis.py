"""What a plan was made from, digested, so that a later look can tell what has changed."""

import hashlib
import json
from collections import defaultdict
from dataclasses import dataclass, field
from typing import Any

from builds.cure.facts.plan_clock import name_of
from builds.plan.facts.rows import PlanRows

Table = dict[str, dict[str, Any]]


@dataclass(frozen=True)
class Basis:
    """By the name in the problem: what each row is called, and a digest of what the plan used.

    `refused` holds the jobs that no plan can place as they are, each with its sentence.
    """

    at: str
    jobs: Table
    people: Table
    stations: Table
    cars: Table
    shop: Table
    refused: dict[str, str] = field(default_factory=dict)

    def table(self) -> dict[str, Any]:
        """The form in which a plan stores it."""
        return {
            "at": self.at,
            "jobs": self.jobs,
            "people": self.people,
            "stations": self.stations,
            "cars": self.cars,
            "shop": self.shop,
            "refused": self.refused,
        }


def digest(*values: Any) -> str:
    return hashlib.sha256(json.dumps(values, default=str).encode()).hexdigest()[:16]


def basis_of(rows: PlanRows) -> Basis:
    return Basis(
        at=rows.at.isoformat(),
        jobs=_jobs(rows),
        people=_people(rows),
        stations={
            name_of("station", row.pk): {
                "called": row.name,
                "digest": digest(row.capacity, row.always_open, _week(row.weekly_hours.all())),
            }
            for row in rows.stations
        },
        cars={
            name_of("car", car): {
                "called": f"{entry.event} for {entry.vehicle}",
                "due": entry.event.due_at.isoformat(),
                "digest": digest(entry.event_id, entry.event.due_at, entry.weight),
            }
            for car, entry in rows.entry.items()
        },
        shop=_shop(rows),
    )


def _jobs(rows: PlanRows) -> Table:
    holds = defaultdict(list)
    for hold in rows.holds:
        holds[hold.last_id].append((hold.station_id, hold.first_id))
    return {
        name_of("job", job.pk): {
            "called": job.title,
            "state": job.state,
            "digest": digest(
                job.vehicle_id,
                job.rank,
                job.weight,
                job.likely_minutes,
                job.left_minutes,
                job.hands,
                job.skill_id,
                sorted(rows.lent.get(job.pk, ())),
                job.splits,
                job.earliest_at,
                job.pinned_at,
                job.needs_mc,
                job.needs_dry,
                sorted((need.pk, need.expected_on) for need in rows.needs.get(job.pk, ())),
                sorted((use.station_id, use.units) for use in rows.uses.get(job.pk, ())),
                sorted(
                    (joint.before, joint.wait, joint.cure, str(rows.work.times.cure_of(joint)))
                    for joint in rows.work.waits.get(job.pk, ())
                ),
                sorted(holds[job.pk]),
            ),
        }
        for job in rows.work.jobs.values()
    }


def _people(rows: PlanRows) -> Table:
    found: Table = {}
    for member in rows.members:
        days = defaultdict(list)
        for row in member.day_hours.all():
            days[row.day.isoformat()].append((row.kind, row.from_minute, row.until_minute))
        found[name_of("person", member.pk)] = {
            "called": member.name,
            "digest": digest(
                sorted(skill.slug for skill in member.skills.all()),
                _week(member.weekly_hours.all()),
            ),
            "days": {day: digest(sorted(stretches, key=str)) for day, stretches in days.items()},
        }
    return found


def _shop(rows: PlanRows) -> Table:
    """The weather that was planned with; nothing where the plan does not ask for it."""
    work = rows.work
    asked = any(joint.stage for joint in work.links) or any(
        job.needs_mc is not None or job.needs_dry for job in work.jobs.values()
    )
    if not asked:
        return {}
    shop = work.times.shop
    newest = shop.newest
    read = (newest.at, newest.air_mc, newest.humidity) if newest else ()
    days: dict[str, list[tuple[int, ...]]] = defaultdict(list)
    for row in shop.days:
        days[row.day.isoformat()].append((row.low_mc, row.high_mc))
    week = []
    for heat in shop.heated:
        hours = (heat.from_minute, heat.until_minute, heat.warm_mc)
        if heat.day is None:
            week.append((heat.weekday, *hours))
        else:
            days[heat.day.isoformat()].append(hours)
    return {
        "shop": {
            "called": "the shop",
            "digest": digest(read, sorted(week)),
            "days": {day: digest(sorted(rows)) for day, rows in days.items()},
        }
    }


def _week(hours: Any) -> list[tuple[int, int, int]]:
    return sorted((row.weekday, row.from_minute, row.until_minute) for row in hours)
