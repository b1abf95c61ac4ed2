"""What a plan was made from, digested from the rows."""

import hashlib
import json
from collections import defaultdict
from collections.abc import Iterable
from typing import Any

from builds.plan.engine.basis import SHOP, Basis, Table, called_for
from builds.plan.engine.ids import id_of
from builds.plan.facts.apart import rules_of
from builds.plan.facts.rows import PlanRows
from builds.work.engine.half_done import may_split
from builds.work.models.job import Job
from garage.facts.presence import away_of
from garage.models import Membership, Station


def digest(*values: Any) -> str:
    return hashlib.sha256(json.dumps(values, default=str).encode()).hexdigest()[:16]


def basis_of(rows: PlanRows) -> Basis:
    return Basis(
        at=rows.at.isoformat(),
        jobs=_jobs(rows),
        people={id_of("person", member.pk): _person(member) for member in rows.members},
        stations={id_of("station", station.pk): _station(station) for station in rows.stations},
        cars={
            id_of("car", car): {
                "called": called_for(entry.event.name, entry.vehicle.name),
                "due": entry.event.due_at.isoformat(),
                "digest": digest(entry.event_id, entry.event.due_at, entry.weight),
            }
            for car, entry in rows.entry.items()
        }
        | _taking(rows),
        shop=_shop(rows) if _asks_for_weather(rows) else {},
    )


def _taking(rows: PlanRows) -> Table:
    """What is not entered itself and takes a car that is."""
    return {
        id_of("car", car): {
            "called": called_for(entry.tow.name, entry.event.name),
            "due": entry.event.due_at.isoformat(),
            "digest": digest(entry.event_id, entry.event.due_at, entry.weight, "takes"),
        }
        for car, entry in rows.takes.items()
        if car not in rows.entry
    }


def _jobs(rows: PlanRows) -> Table:
    holds: dict[int, list[tuple[int, int]]] = defaultdict(list)
    for hold in rows.holds:
        holds[hold.last_id].append((hold.station_id, hold.first_id))
    return {
        id_of("job", job.pk): {
            "called": job.title,
            "state": job.state,
            "digest": _job_digest(job, rows, holds[job.pk]),
        }
        for job in rows.work.jobs.values()
    }


def _job_digest(job: Job, rows: PlanRows, holds: list[tuple[int, int]]) -> str:
    """All that the planner is told of a job; `holds` are those of stations that end with it."""
    return digest(
        job.vehicle_id,
        job.rank,
        job.weight,
        job.likely_minutes,
        job.left_minutes,
        job.hands,
        job.skill_id,
        sorted(rows.lent.get(job.pk, ())),
        may_split(job),
        job.earliest_at,
        job.pinned_at,
        job.needs_mc,
        job.needs_dry,
        sorted(
            (need.pk, need.expected_on, need.lead_days, need.pk in rows.to_order) for need in rows.needs.get(job.pk, ())
        ),
        *([sorted(rows.hands[job.pk])] if job.pk in rows.hands else []),
        sorted((use.station_id, use.units) for use in rows.uses.get(job.pk, ())),
        sorted(
            (wait.before, wait.wait, wait.cure, str(rows.work.times.cure_of(wait)))
            for wait in rows.work.waits.get(job.pk, ())
        ),
        sorted(holds),
        *([(job.night_id, rows.nights[job.night_id].due_at)] if job.night_id in rows.nights else []),
        *rules_of(job, rows),
    )


def _person(member: Membership) -> dict[str, Any]:
    days = defaultdict(list)
    for hours in member.day_hours.all():
        days[hours.day.isoformat()].append((hours.kind, hours.from_minute, hours.until_minute))
    skills = sorted(skill.slug for skill in member.skills.all())
    return {
        "called": member.name,
        "digest": digest(skills, member.may_sign, _week(member.weekly_hours.all()), *_away(member), *_limits(member)),
        "days": {day: digest(sorted(stretches, key=str)) for day, stretches in days.items()},
    }


def _limits(member: Membership) -> list[list[int]]:
    """The cars that he works on alone; nothing where he works on every one."""
    return [] if member.only_cars is None else [sorted(member.only_cars)]


def _away(member: Membership) -> list[tuple[Any, ...]]:
    """The events at which he is meanwhile; nothing where there are none."""
    return [(away.event, away.since, away.until) for away in away_of(member)]


def _station(station: Station) -> dict[str, Any]:
    return {
        "called": station.name,
        "digest": digest(station.capacity, station.stands, station.always_open, _week(station.weekly_hours.all())),
    }


def _asks_for_weather(rows: PlanRows) -> bool:
    """Whether a cure of the plan is computed, or a job wants the shop warm or dry."""
    return any(wait.stage for wait in rows.work.links) or any(
        job.needs_mc is not None or job.needs_dry for job in rows.work.jobs.values()
    )


def _shop(rows: PlanRows) -> Table:
    """The weather that was planned with."""
    shop = rows.work.times.shop
    newest = shop.newest
    read = (newest.at, newest.air_mc, newest.humidity) if newest else ()
    days: dict[str, list[tuple[int, ...]]] = defaultdict(list)
    for forecast in shop.entered.days:
        days[forecast.day.isoformat()].append((forecast.low_mc, forecast.high_mc))
    week = []
    for heat in shop.entered.heated:
        hours = (heat.from_minute, heat.until_minute, heat.warm_mc)
        if heat.day is None:
            week.append((heat.weekday, *hours))
        else:
            days[heat.day.isoformat()].append(hours)
    return {
        "shop": {
            "called": SHOP,
            "digest": digest(read, sorted(week)),
            "days": {day: digest(sorted(stretches)) for day, stretches in days.items()},
        }
    }


def _week(hours: Iterable[Any]) -> list[tuple[int, int, int]]:
    return sorted((stretch.weekday, stretch.from_minute, stretch.until_minute) for stretch in hours)
