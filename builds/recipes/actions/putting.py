"""Putting a recipe onto a car."""

import uuid
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from django.db import transaction

from builds.readings.actions import remeasure
from builds.readings.engine import in_measuring_order
from builds.readings.engine.kinds_touch import touched
from builds.recipes.actions.wanted import ask
from builds.recipes.engine.meet import joined_note
from builds.recipes.engine.mend import leave_out as leave_out_of
from builds.recipes.engine.mend import waits
from builds.recipes.engine.recipe import SKILLS, STATIONS, Recipe, RecipeJob
from builds.recipes.engine.renamed import as_called
from builds.recipes.engine.sides import SIDES, at_side
from builds.recipes.facts import met_on
from builds.steps.actions import jobs
from builds.steps.actions.said_less import was_called
from builds.steps.facts.looks import unread
from builds.work.engine.ranks import RANK_ORDER, rank_for
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import NOTE_MOST, Job, JobStation
from builds.work.models.link import Link, StationHold
from garage.actions.garages import STANDS
from garage.actions.hands import work_or_refuse
from garage.actions.refused import Refused
from garage.models import Garage, Membership, Skill, Station, Vehicle


@dataclass(frozen=True)
class PutOn:
    """A job of the car for each that recipes asked for, so that one may come twice; `there` (pk) were on it before."""

    asked: tuple[Job, ...]
    there: frozenset[int]

    @property
    def new(self) -> tuple[Job, ...]:
        return tuple(dict.fromkeys(job for job in self.asked if job.pk not in self.there))

    @property
    def served(self) -> int:
        """How many that were asked for are done by jobs that the car had already."""
        return sum(job.pk in self.there for job in self.asked)


def _skills(garage: Garage, recipe: Recipe) -> dict[str, Skill]:
    wanted = {job.skill for job in recipe.jobs if job.skill}
    return {
        slug: Skill.objects.get_or_create(
            garage=garage, slug=slug, defaults={"name": SKILLS.get(slug, slug.capitalize())}
        )[0]
        for slug in wanted
    }


def _stations(garage: Garage, recipe: Recipe) -> dict[str, Station]:
    wanted = {slug for job in recipe.jobs for slug in job.stations}
    wanted |= {hold.station for hold in recipe.station_holds}
    return {
        slug: Station.objects.get_or_create(
            garage=garage, slug=slug, defaults={"name": STATIONS.get(slug, slug.capitalize()), "stands": slug in STANDS}
        )[0]
        for slug in wanted
    }


def _note(row: RecipeJob) -> str:
    lines = [row.note]
    if row.drawer:
        lines.append(f"From the drawer: {', '.join(row.drawer)}.")
    if row.tools:
        lines.append(f"Tools: {', '.join(row.tools)}.")
    return "\n".join(line for line in lines if line)


@transaction.atomic
def put(
    recipe: Recipe,
    vehicle: Vehicle,
    *,
    by: Membership,
    at: datetime,
    leave_out: Collection[str] = (),
    one_for_all: Mapping[str, Job] | None = None,
) -> dict[str, Job]:
    """The recipe's jobs on the car, by key, and the order of work with them; see `_put`."""
    made = _put(recipe, vehicle, by=by, at=at, leave_out=leave_out, one_for_all=one_for_all or {})
    remeasure.settle(vehicle, by=by, at=at)
    return made


def _put(
    recipe: Recipe,
    vehicle: Vehicle,
    *,
    by: Membership,
    at: datetime,
    leave_out: Collection[str],
    one_for_all: Mapping[str, Job],
) -> dict[str, Job]:
    """The recipe's jobs, by key; order runs on across jobs that are left out.

    Those that are `one_for_all` are not written again: the job that the car has already takes them over.
    """
    work_or_refuse(by, vehicle)
    wanted = leave_out_of(recipe, leave_out)
    rows = wanted.jobs
    if not rows:
        raise Refused("Tick at least one job of the recipe.")
    garage, batch = vehicle.garage, uuid.uuid4()
    skills, stations = _skills(garage, wanted), _stations(garage, wanted)
    joined = {job.key: one_for_all[job.key] for job in rows if job.key in one_for_all}
    for job in rows:
        if job.key in joined:
            _join(joined[job.key], job, recipe, stations, skills)
    made = joined | {
        job.key: jobs.write(
            vehicle,
            by=by,
            at=at,
            recipe="" if job.by_hand else recipe.key,
            batch=batch,
            **_fields(job, skills, stations),
        )
        for job in rows
        if job.key not in joined
    }
    there = {(point.job_id, point.what) for point in HoldPoint.objects.filter(job__in=joined.values())}
    HoldPoint.objects.bulk_create(
        HoldPoint(job=made[job.key], what=what, asks=job.asks.get(what, ""))
        for job in rows
        for what in job.hold_points
        if (made[job.key].pk, what) not in there
    )
    _draw_links(wanted, made)
    ask(garage, rows, made, at=at)
    for hold in wanted.station_holds:
        first, last = made[hold.first], made[hold.until]
        StationHold.objects.get_or_create(station=stations[hold.station], first=first, last=last)
    return made


def _fields(job: RecipeJob, skills: Mapping[str, Skill], stations: Mapping[str, Station]) -> dict[str, Any]:
    """What a job of a recipe is written down with; skills and stations of the garage by their slugs."""
    return {
        "title": job.title,
        "work": job.work,
        "systems": list(job.systems),
        "rank": job.rank or "",
        "lowered_because": job.note[:200],
        "stations": {stations[slug]: units for slug, units in job.stations.items()},
        "kinds": list(job.kinds),
        "kinds_likely": job.by_hand,
        "measures": list(job.measures),
        "eats": list(job.eats),
        "hands": job.hands,
        "skill": skills[job.skill] if job.skill else None,
        "splits": job.splits,
        "weld": job.weld or "",
        "note": _note(job),
    }


def _draw_links(recipe: Recipe, made: Mapping[str, Job]) -> None:
    """Between the jobs that were made or joined, by key.

    A recipe runs in no circle, and jobs are joined so that none is closed: nothing to refuse here.
    What the order of work drew between two of them gives way.
    """
    drawn = [wait for wait in waits(recipe) if made[wait.before] != made[wait.after]]
    for wait in drawn:
        Link.objects.by_order().filter(before=made[wait.before], after=made[wait.after]).delete()
    Link.objects.bulk_create(
        (
            Link(
                before=made[wait.before],
                after=made[wait.after],
                wait_minutes=wait.wait,
                why=wait.why,
                cure=wait.cure,
                cure_stage=wait.stage,
            )
            for wait in drawn
        ),
        ignore_conflicts=True,
    )


@transaction.atomic
def put_at(
    recipe: Recipe,
    side: str,
    vehicle: Vehicle,
    *,
    by: Membership,
    at: datetime,
    leave_out: Collection[str] = (),
    changes: Mapping[str, RecipeJob] | None = None,
    one_for_all: Mapping[str, Job] | None = None,
) -> PutOn:
    """As `put`, on a side of the car (see `SIDES`); `changes` gives jobs (key) as they are wanted this time."""
    there = _on(vehicle)
    rows = {job.key: as_called(changes[job.key], job) for job in recipe.jobs if changes and job.key in changes}
    wanted = with_jobs(recipe, rows)
    asked = _put_at(wanted, side, vehicle, by=by, at=at, leave_out=leave_out, one_for_all=one_for_all or {})
    remeasure.settle(vehicle, by=by, at=at)
    return PutOn(tuple(asked), there)


@transaction.atomic
def put_several(recipes: Iterable[Recipe], vehicle: Vehicle, *, by: Membership, at: datetime, side: str = "") -> PutOn:
    """One recipe after the other; a job that the car has by then serves for the next as well."""
    there, asked = _on(vehicle), []
    for recipe in recipes:
        asked += _put_at(recipe, side, vehicle, by=by, at=at, leave_out=(), one_for_all=met_on(recipe, vehicle))
    remeasure.settle(vehicle, by=by, at=at)
    return PutOn(tuple(asked), there)


def _put_at(
    recipe: Recipe,
    side: str,
    vehicle: Vehicle,
    *,
    by: Membership,
    at: datetime,
    leave_out: Collection[str],
    one_for_all: Mapping[str, Job],
) -> list[Job]:
    """A job for each of the recipe's, on each side.

    What is done once for both sides comes with the first; a job that the car has for its side serves.
    """
    once = {job.key for job in recipe.jobs if not job.each_side}
    serving, asked = dict(one_for_all), dict[tuple[str, str], Job]()
    for one in SIDES[side]:
        sided = at_side(recipe, one)
        if one:
            serving = {key: job for key, job in serving.items() if key in once}
            serving |= {key: job for key, job in met_on(sided, vehicle).items() if key not in once}
        put_on = _put(sided, vehicle, by=by, at=at, leave_out=leave_out, one_for_all=serving)
        asked |= {("" if key in once else one, key): job for key, job in put_on.items()}
        serving = put_on
    return list(asked.values())


def _on(vehicle: Vehicle) -> frozenset[int]:
    return frozenset(Job.objects.on(vehicle).values_list("pk", flat=True))


def _join(
    job: Job, row: RecipeJob, recipe: Recipe, stations: Mapping[str, Station], skills: Mapping[str, Skill]
) -> None:
    """The job does what the row asks for as well: all that either has, the longer figures, the more urgent rank."""
    named_anew = _says_more(job, row)
    other = job.title if named_anew else row.title
    job.was_unread = job.was_unread or unread(job)
    if named_anew:
        job.was_called = was_called(job, row.title)
        job.title = row.title
    figures = zip((job.low_minutes, job.likely_minutes, job.high_minutes), row.work, strict=True)
    job.low_minutes, job.likely_minutes, job.high_minutes = (max(pair) for pair in figures)
    for name in ("systems", "kinds", "measures", "eats"):
        setattr(job, name, list(dict.fromkeys((*getattr(job, name), *getattr(row, name)))))
    job.measures = list(in_measuring_order(job.measures))
    job.hands, job.splits = max(job.hands, row.hands), job.splits or row.splits
    job.skill = job.skill or (skills[row.skill] if row.skill else None)
    if row.by_hand:
        job.recipe, job.kinds_likely = "", True
    # What somebody raised by hand stays raised.
    asked_rank = row.rank or rank_for(touched(job.systems, job.kinds)) or Job.Rank.NEEDED
    rank = min(job.rank, asked_rank, key=RANK_ORDER.__getitem__)
    told = (job.systems, rank, job.lowered_because or row.note[:200], job)
    job.rank, job.lowered_because = jobs.settle_rank(*told, kinds=job.kinds)
    asked = "" if other == job.title else f"It does for “{other}” too ({recipe.title})."
    job.note = joined_note(job.note, _note(row), asked)[:NOTE_MOST]
    job.save()
    for slug, units in row.stations.items():
        use, _ = JobStation.objects.get_or_create(job=job, station=stations[slug], defaults={"units": units})
        if use.units < units:
            use.units = units
            use.save(update_fields=["units"])


def _says_more(job: Job, row: RecipeJob) -> bool:
    """Whether the row's title names the joined job better: work over looking, more of either over less."""
    if bool(row.kinds) != bool(job.kinds) or set(job.kinds) < set(row.kinds):
        return bool(row.kinds)
    return set(job.measures) < set(row.measures) and not set(row.kinds) < set(job.kinds)


def with_jobs(recipe: Recipe, rows: Mapping[str, RecipeJob]) -> Recipe:
    """The recipe with some of its jobs (key) replaced."""
    return replace(recipe, jobs=tuple(rows.get(job.key, job) for job in recipe.jobs))
