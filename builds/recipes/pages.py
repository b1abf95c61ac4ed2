"""A recipe as its page tells it: job by job, with its cautions and what it leaves void."""

from collections import Counter, defaultdict
from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass

from builds.readings.engine import READINGS
from builds.readings.engine.kinds_touch import touched
from builds.recipes.actions.putting import PutOn
from builds.recipes.engine.recipe import Recipe, RecipeJob, RecipeLink
from builds.recipes.facts import KnownRecipe, nobody_has, skill_names, station_names, wanted_for
from builds.steps.engine.cautions import cautions_for
from builds.work.engine.ranks import rank_for
from garage.engine.systems import SYSTEM_LABELS
from garage.engine.words import duration_words, listed_in_words, work_words
from garage.models import Garage, Vehicle


@dataclass(frozen=True)
class Before:
    """What a job of a recipe comes after, and the wait between."""

    title: str
    wait: str
    why: str


@dataclass(frozen=True)
class JobLine:
    """One job of a recipe, told; `counts` is what its line says of what is folded behind it."""

    key: str
    title: str
    rank: str
    likely: str
    span: str
    counts: tuple[str, ...]
    skill: str
    stations: tuple[str, ...]
    after: tuple[Before, ...]
    hold_points: tuple[str, ...]
    measures: tuple[str, ...]
    parts: tuple[str, ...]
    drawer: tuple[str, ...]
    tools: tuple[str, ...]
    note: str


@dataclass(frozen=True)
class RecipePage:
    """`leaves_void` are readings that nobody takes within the recipe."""

    known: KnownRecipe
    jobs: tuple[JobLine, ...]
    cautions: tuple[str, ...]
    kept: tuple[str, ...]
    measures: tuple[str, ...]
    leaves_void: tuple[str, ...]


@dataclass(frozen=True)
class SystemRecipes:
    """Recipes that are for one system of a car first of all."""

    label: str
    recipes: tuple[KnownRecipe, ...]


def by_system(recipes: Iterable[KnownRecipe]) -> list[SystemRecipes]:
    """Each under the system that most of its jobs touch; systems in their own order, by title in each."""
    under: dict[str, list[KnownRecipe]] = defaultdict(list)
    for known in recipes:
        under[_main_system(known.recipe)].append(known)
    labels = {**SYSTEM_LABELS, "": "The whole car"}
    return [SystemRecipes(label, tuple(under[slug])) for slug, label in labels.items() if slug in under]


def _main_system(recipe: Recipe) -> str:
    """Empty where no system is touched by half of its jobs."""
    touches = Counter(slug for job in recipe.jobs for slug in job.systems)
    slug, count = max(touches.items(), key=lambda item: item[1], default=("", 0))
    return slug if 2 * count >= len(recipe.jobs) else ""


def load_recipe(garage: Garage, known: KnownRecipe) -> RecipePage:
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


def _line(job: RecipeJob, titles: dict[str, str], skills: dict[str, str], stations: dict[str, str]) -> JobLine:
    low, likely, high = job.work
    return JobLine(
        key=job.key,
        title=job.title,
        rank=job.rank or rank_for(touched(job.systems, job.kinds)) or "needed",
        likely=work_words(likely),
        span=f"{work_words(low)} to {work_words(high)}",
        counts=tuple(_counts(job)),
        skill=skills.get(job.skill, job.skill) if job.skill else "",
        stations=tuple(stations.get(slug, slug) for slug in job.stations),
        after=tuple(Before(titles[link.job], _wait_words(link), link.why) for link in job.after),
        hold_points=job.hold_points,
        measures=labels(job.measures),
        parts=job.parts,
        drawer=job.drawer,
        tools=job.tools,
        note=job.note,
    )


def _counts(job: RecipeJob) -> Iterator[str]:
    if job.hands != 1:
        yield f"{job.hands} people" if job.hands else "nobody needed"
    for name, held in (("hold point", job.hold_points), ("reading", job.measures), ("part", job.parts)):
        if held:
            yield f"{len(held)} {name}{'s' if len(held) > 1 else ''}"


def _wait_words(link: RecipeLink) -> str:
    """A computed wait is said as the guess that it is."""
    if not link.wait_minutes:
        return ""
    words = duration_words(link.wait_minutes)
    return f"about {words}, as warm as the shop is," if link.stage else words


def put_words(garage: Garage, recipes: Collection[Recipe], vehicle: Vehicle, put_on: PutOn) -> str:
    """What is new on the car, what it had already, and the skills that nobody has."""
    missing = dict.fromkeys(skill for recipe in recipes for skill in nobody_has(garage, recipe))
    lacking = f" Nobody here has the skill yet: {', '.join(missing)}." if missing else ""
    return f"{_new_words(recipes, vehicle, put_on)}.{_parts_words(put_on)}{lacking}"


def _parts_words(put_on: PutOn) -> str:
    many = wanted_for(put_on.asked)
    parts = f"{many} parts are" if many > 1 else "1 part is"
    return f" {parts} wanted for this work: say which are here." if many else ""


def _new_words(recipes: Iterable[Recipe], vehicle: Vehicle, put_on: PutOn) -> str:
    if not put_on.new:
        titles = listed_in_words(f"“{recipe.title}”" for recipe in recipes)
        return f"{vehicle} has all of {titles} already: nothing was added"
    count = len(put_on.new)
    new = f"{count} jobs are" if count > 1 else "1 job is"
    if not put_on.served:
        return f"{new} new on {vehicle}"
    served = f"{put_on.served} are" if put_on.served > 1 else "1 is"
    return f"{new} new on {vehicle}; {served} done by jobs that were on it already"
