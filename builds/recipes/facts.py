"""Recipes as a garage has them: those that come with the program, and its own copies."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime

from builds.readings.engine.order_of_work import Pair
from builds.readings.engine.readings_said import only_reads
from builds.recipes.engine.alike import TypedWork, alike
from builds.recipes.engine.meet import Id, JobOnCar, holds_together, met, served
from builds.recipes.engine.parse import from_dict, load_shipped
from builds.recipes.engine.recipe import SKILLS, STATIONS, Recipe, RecipeError
from builds.recipes.models import OwnRecipe
from builds.steps.engine.by_words import ByWords
from builds.work.engine.again import TAKEN_AGAIN
from builds.work.models.job import Job
from builds.work.models.link import Link
from builds.work.models.need import Need
from builds.work.models.states import State
from garage.models import Garage, Membership, Skill, Station, Vehicle
from parts.models import Part


@dataclass(frozen=True)
class KnownRecipe:
    """A recipe; `own` when it is the garage's copy, `broken` when that copy cannot be read."""

    recipe: Recipe
    own: bool = False
    changed_at: datetime | None = None
    broken: str = ""


def known_recipes(garage: Garage) -> list[KnownRecipe]:
    """By title; one query."""
    own = {own_recipe.key: own_recipe for own_recipe in OwnRecipe.objects.in_garage(garage)}
    recipes = [_known(own.pop(recipe.key, None), recipe) for recipe in load_shipped()]
    recipes += [_known(own_recipe, None) for own_recipe in own.values()]
    return sorted((known for known in recipes if known), key=lambda known: known.recipe.title.lower())


def known_recipe(garage: Garage, key: str) -> KnownRecipe | None:
    shipped = next((recipe for recipe in load_shipped() if recipe.key == key), None)
    return _known(OwnRecipe.objects.in_garage(garage).called(key).first(), shipped)


def _known(row: OwnRecipe | None, shipped: Recipe | None) -> KnownRecipe | None:
    if row is None:
        return KnownRecipe(shipped) if shipped else None
    try:
        return KnownRecipe(from_dict(row.body), True, row.changed_at)
    except RecipeError as error:
        # A copy written for another version of the program must not take the page down.
        return KnownRecipe(shipped, broken=str(error)) if shipped else None


def skill_names(garage: Garage) -> dict[str, str]:
    """Skills that a recipe may ask for, by slug; the garage's own names win."""
    return SKILLS | {skill.slug: skill.name for skill in Skill.objects.in_garage(garage)}


def station_names(garage: Garage) -> dict[str, str]:
    return STATIONS | {station.slug: station.name for station in Station.objects.in_garage(garage)}


def nobody_has(garage: Garage, recipe: Recipe) -> list[str]:
    """Skills that the recipe asks for and no pair of hands in the garage has."""
    wanted = {job.skill for job in recipe.jobs if job.skill}
    there = set(Membership.objects.in_garage(garage).active().working().values_list("skills__slug", flat=True))
    names = skill_names(garage)
    return sorted(names.get(slug, slug) for slug in wanted - there)


def counted_on_shelf(garage: Garage) -> list[tuple[int, str, str]]:
    """Parts (pk, name, unit) of which there are several, and that can be used."""
    usable = Part.objects.in_garage(garage).kept().filter(single=False)
    spoilt = [Part.Condition.REPAIR, Part.Condition.SCRAP]
    return list(usable.exclude(condition__in=spoilt).values_list("pk", "name", "unit"))


def wanted_for(jobs: Iterable[Job]) -> int:
    """How many parts these jobs need that nobody has said are here."""
    return Need.objects.open().filter(job__in=list(jobs)).count()


def met_on(recipe: Recipe, vehicle: Vehicle) -> dict[str, Job]:
    """For jobs of the recipe (key) those of the car, not yet begun, that can serve for both."""
    rows, on_car, links = _not_begun(vehicle)
    return {key: rows[pk] for key, pk in met(recipe, on_car, links).items()}


def served_on(vehicle: Vehicle, typed: Mapping[str, ByWords]) -> dict[str, Job]:
    """For jobs that somebody typed (by title) that of the car, not yet begun, which does the same; two queries at most.

    Only of those whose words name what is measured and nothing else.
    """
    asked = {title: said for title, said in typed.items() if only_reads(title)}
    if not asked:
        return {}
    rows, on_car, links = _not_begun(vehicle)
    found = {title: served(JobOnCar(title, said.kinds, said.measures), on_car, links) for title, said in asked.items()}
    return {title: rows[pk] for title, pk in found.items() if pk is not None}


def alike_on(vehicle: Vehicle, typed: Mapping[str, ByWords]) -> dict[str, Job]:
    """For jobs that somebody typed (by title) the one of the car, not yet begun, that is likely the same work: to be
    asked. One query.
    """
    rows, on_car, _ = _not_begun(vehicle) if typed else ({}, {}, [])
    told = {pk: TypedWork(job.title, job.kinds, job.measures) for pk, job in on_car.items()}
    found = {title: _most_alike(TypedWork(title, said.kinds, said.measures), told) for title, said in typed.items()}
    return {title: rows[pk] for title, pk in found.items() if pk is not None}


def alike_to(recipe: Recipe, vehicle: Vehicle) -> dict[str, Job]:
    """For jobs of the recipe (key) those of the car in somebody's own words, not yet begun, that are likely the same
    work: to be asked. One job once, and none by which work would run in a circle.
    """
    rows, on_car, links = _not_begun(vehicle)
    typed = {pk: TypedWork(job.title, job.kinds, job.measures) for pk, job in on_car.items() if not rows[pk].recipe}
    asked = {job.key: TypedWork(job.title, job.kinds, job.measures) for job in recipe.jobs if not job.before}
    found: dict[str, int] = {}
    for pk, told in typed.items():
        key = _most_alike(told, {key: other for key, other in asked.items() if key not in found})
        if key is not None and holds_together(recipe, {**met(recipe, on_car, links), **found, key: pk}, links):
            found[key] = pk
    return {key: rows[pk] for key, pk in found.items()}


def _most_alike(typed: TypedWork, others: Mapping[Id, TypedWork]) -> Id | None:
    """That of the others (by id) which has most in common with it, the first of several; None where none has."""
    best = max(others, key=lambda id: alike(typed, others[id]), default=None)
    return best if best is not None and alike(typed, others[best]) else None


def _not_begun(vehicle: Vehicle) -> tuple[dict[int, Job], dict[int, JobOnCar], list[Pair]]:
    """The jobs of a car that nobody has begun, as rows and as recipes meet them, and the links (before, after)."""
    rows = {job.pk: job for job in Job.objects.on(vehicle).filter(state=State.OPEN).exclude(recipe__in=TAKEN_AGAIN)}
    on_car = {pk: JobOnCar(job.title, tuple(job.kinds), tuple(job.measures)) for pk, job in rows.items()}
    # Through jobs of other cars too; what is drawn for this car is drawn anew.
    links = Link.objects.in_garage(vehicle.garage_id).standing().exclude(by_order=True, after__vehicle=vehicle)
    return rows, on_car, list(links.values_list("before_id", "after_id"))
