"""Putting a recipe onto a car, and a garage's own copies of recipes."""

import uuid
from collections.abc import Collection, Mapping
from dataclasses import replace
from datetime import datetime

from django.db import transaction

from builds.readings.actions import remeasure
from builds.recipes.engine.mend import leave_out as leave_out_of
from builds.recipes.engine.mend import waits
from builds.recipes.engine.parse import from_dict
from builds.recipes.engine.recipe import SKILLS, STATIONS, Recipe, RecipeJob, to_dict
from builds.recipes.models import OwnRecipe
from builds.steps.actions import jobs, links
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job
from builds.work.models.link import Link
from garage.actions.refused import Refused
from garage.models import Garage, Membership, Skill, Station, Vehicle


def _skills(garage: Garage, recipe: Recipe) -> dict[str, Skill]:
    wanted = {row.skill for row in recipe.jobs if row.skill}
    return {
        slug: Skill.objects.get_or_create(
            garage=garage, slug=slug, defaults={"name": SKILLS.get(slug, slug.capitalize())}
        )[0]
        for slug in wanted
    }


def _stations(garage: Garage, recipe: Recipe) -> dict[str, Station]:
    wanted = {slug for row in recipe.jobs for slug in row.stations}
    wanted |= {hold.station for hold in recipe.station_holds}
    return {
        slug: Station.objects.get_or_create(
            garage=garage, slug=slug, defaults={"name": STATIONS.get(slug, slug.capitalize())}
        )[0]
        for slug in wanted
    }


def _note(row: RecipeJob) -> str:
    lines = [row.note]
    if row.parts:
        lines.append(f"Parts: {', '.join(row.parts)}.")
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
    changes: Mapping[str, RecipeJob] | None = None,
) -> dict[str, Job]:
    """The recipe's jobs on the car, by key; order runs on across jobs that are left out.

    `changes` gives some of the recipe's jobs (key) as they are wanted this time.
    """
    wanted = leave_out_of(with_jobs(recipe, changes or {}), leave_out)
    rows = wanted.jobs
    if not rows:
        raise Refused("Tick at least one job of the recipe.")
    garage, batch = vehicle.garage, uuid.uuid4()
    skills, stations = _skills(garage, wanted), _stations(garage, wanted)
    made = {
        row.key: jobs.write(
            vehicle,
            by=by,
            at=at,
            title=row.title,
            work=row.work,
            systems=list(row.systems),
            rank=row.rank or "",
            lowered_because=row.note[:200],
            stations={stations[slug]: units for slug, units in row.stations.items()},
            kinds=list(row.kinds),
            measures=list(row.measures),
            eats=list(row.eats),
            hands=row.hands,
            skill=skills[row.skill] if row.skill else None,
            splits=row.splits,
            weld=row.weld or "",
            note=_note(row),
            recipe=recipe.key,
            batch=batch,
        )
        for row in rows
    }
    HoldPoint.objects.bulk_create(
        HoldPoint(job=made[row.key], what=what, asks=row.asks.get(what, "")) for row in rows for what in row.hold_points
    )
    # Between new jobs, and a recipe runs in no circle: nothing to refuse here.
    Link.objects.bulk_create(
        Link(
            before=made[wait.before],
            after=made[wait.after],
            wait_minutes=wait.wait,
            why=wait.why,
            cure=wait.cure,
            cure_stage=wait.stage,
        )
        for wait in waits(wanted)
    )
    for hold in wanted.station_holds:
        links.hold_station(stations[hold.station], made[hold.first], made[hold.until])
    remeasure.settle(vehicle, by=by, at=at)
    return made


@transaction.atomic
def keep_own(garage: Garage, recipe: Recipe, *, at: datetime) -> OwnRecipe:
    """The garage's own copy of a recipe, instead of the one that comes with the program.

    Raises RecipeError when it would not work as a recipe.
    """
    body = to_dict(recipe)
    from_dict(body)
    kept, _ = OwnRecipe.objects.update_or_create(
        garage=garage, key=recipe.key, defaults={"body": body, "changed_at": at}
    )
    return kept


def forget_own(garage: Garage, key: str) -> None:
    """Back to the recipe that comes with the program."""
    OwnRecipe.objects.in_garage(garage).called(key).delete()


def with_jobs(recipe: Recipe, rows: Mapping[str, RecipeJob]) -> Recipe:
    """The recipe with some of its jobs (key) replaced."""
    return replace(recipe, jobs=tuple(rows.get(row.key, row) for row in recipe.jobs))
