"""Recipes as a garage has them: those that come with the program, and its own copies."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from builds.readings.engine import READINGS
from builds.recipes.engine.meet import JobOnCar, met
from builds.recipes.engine.parse import from_dict, load_shipped
from builds.recipes.engine.recipe import (
    SKILLS,
    STATIONS,
    Recipe,
    RecipeError,
    RecipeJob,
    RecipeLink,
)
from builds.recipes.models import OwnRecipe
from builds.steps.engine.cautions import cautions_for
from builds.work.engine.ranks import rank_for
from builds.work.models.job import MEASURE_AGAIN, Job
from builds.work.models.link import Link
from builds.work.models.states import State
from garage.engine.words import duration_words
from garage.models import Garage, Membership, Skill, Station, Vehicle


@dataclass(frozen=True)
class Known:
    """A recipe; `own` when it is the garage's copy, `broken` when that copy cannot be read."""

    recipe: Recipe
    own: bool = False
    changed_at: datetime | None = None
    broken: str = ""

    @property
    def hours(self) -> str:
        return duration_words(sum(job.work[1] for job in self.recipe.jobs))


@dataclass(frozen=True)
class Before:
    """What a job of a recipe comes after, and the wait between."""

    title: str
    wait: str
    why: str


@dataclass(frozen=True)
class JobLine:
    """One job of a recipe, told."""

    key: str
    title: str
    rank: str
    likely: str
    span: str
    hands: int
    skill: str
    stations: tuple[str, ...]
    after: tuple[Before, ...]
    hold_points: tuple[str, ...]
    measures: tuple[str, ...]
    parts: tuple[str, ...]
    tools: tuple[str, ...]
    note: str


@dataclass(frozen=True)
class RecipePage:
    """`leaves_void` are readings that nobody takes within the recipe."""

    known: Known
    jobs: tuple[JobLine, ...]
    cautions: tuple[str, ...]
    kept: tuple[str, ...]
    measures: tuple[str, ...]
    leaves_void: tuple[str, ...]


def known_recipes(garage: Garage) -> list[Known]:
    """By title; one query."""
    own = {row.key: row for row in OwnRecipe.objects.in_garage(garage)}
    found = [_known(own.pop(recipe.key, None), recipe) for recipe in load_shipped()]
    found += [known for row in own.values() if (known := _known(row, None))]
    return sorted((each for each in found if each), key=lambda each: each.recipe.title.lower())


def known_recipe(garage: Garage, key: str) -> Known | None:
    shipped = next((recipe for recipe in load_shipped() if recipe.key == key), None)
    return _known(OwnRecipe.objects.in_garage(garage).called(key).first(), shipped)


def _known(row: OwnRecipe | None, shipped: Recipe | None) -> Known | None:
    if row is None:
        return Known(shipped) if shipped else None
    try:
        return Known(from_dict(row.body), True, row.changed_at)
    except RecipeError as error:
        # A copy written for another version of the program must not take the page down.
        return Known(shipped, broken=str(error)) if shipped else None


def recipe_title(key: str) -> str:
    """What a recipe is called, by the key that its jobs carry."""
    titles = {recipe.key: recipe.title for recipe in load_shipped()}
    return titles.get(key, key.replace("-", " "))


def load_recipe(garage: Garage, known: Known) -> RecipePage:
    recipe = known.recipe
    titles = {job.key: job.title for job in recipe.jobs}
    skills, stations = skill_names(garage), station_names(garage)
    return RecipePage(
        known=known,
        jobs=tuple(_line(job, titles, skills, stations) for job in recipe.jobs),
        cautions=tuple(
            caution.text
            for caution in cautions_for(
                {slug for job in recipe.jobs for slug in job.systems},
                {slug for job in recipe.jobs for slug in job.kinds},
                {slug for job in recipe.jobs for slug in job.stations},
            )
        ),
        kept=tuple(
            f"{stations.get(hold.station, hold.station)}: from {titles[hold.first]} until {titles[hold.until]} is done"
            for hold in recipe.station_holds
        ),
        measures=labels(recipe.measures),
        leaves_void=labels(recipe.leaves_void),
    )


def labels(readings: Iterable[str]) -> tuple[str, ...]:
    return tuple(READINGS[slug].label for slug in readings)


def skill_names(garage: Garage) -> dict[str, str]:
    """Skills that a recipe may ask for, by slug; the garage's own names win."""
    return SKILLS | {row.slug: row.name for row in Skill.objects.in_garage(garage)}


def station_names(garage: Garage) -> dict[str, str]:
    return STATIONS | {row.slug: row.name for row in Station.objects.in_garage(garage)}


def nobody_has(garage: Garage, recipe: Recipe) -> list[str]:
    """Skills that the recipe asks for and no pair of hands in the garage has."""
    wanted = {job.skill for job in recipe.jobs if job.skill}
    there = set(Membership.objects.in_garage(garage).active().working().values_list("skills__slug", flat=True))
    names = skill_names(garage)
    return sorted(names.get(slug, slug) for slug in wanted - there)


def _line(job: RecipeJob, titles: dict[str, str], skills: dict[str, str], stations: dict[str, str]) -> JobLine:
    low, likely, high = job.work
    return JobLine(
        key=job.key,
        title=job.title,
        rank=job.rank or rank_for(job.systems) or "needed",
        likely=duration_words(likely),
        span=f"{duration_words(low)} to {duration_words(high)}",
        hands=job.hands,
        skill=skills.get(job.skill, job.skill) if job.skill else "",
        stations=tuple(stations.get(slug, slug) for slug in job.stations),
        after=tuple(
            Before(
                titles[link.job],
                _wait_words(link),
                link.why,
            )
            for link in job.after
        ),
        hold_points=job.hold_points,
        measures=labels(job.measures),
        parts=job.parts,
        tools=job.tools,
        note=job.note,
    )


def _wait_words(link: RecipeLink) -> str:
    """A computed wait is said as the guess that it is."""
    if not link.wait_minutes:
        return ""
    words = duration_words(link.wait_minutes)
    return f"about {words}, as warm as the shop is," if link.stage else words


def met_on(recipe: Recipe, vehicle: Vehicle) -> dict[str, Job]:
    """For jobs of the recipe (key) those of the car, not yet begun, that can serve for both."""
    rows = {job.pk: job for job in Job.objects.on(vehicle).filter(state=State.OPEN).exclude(recipe=MEASURE_AGAIN)}
    on_car = {pk: JobOnCar(job.title, tuple(job.kinds), tuple(job.measures)) for pk, job in rows.items()}
    links = Link.objects.by_hand().filter(before__vehicle=vehicle, after__vehicle=vehicle)
    joined = met(recipe, on_car, list(links.values_list("before_id", "after_id")))
    return {key: rows[pk] for key, pk in joined.items()}
