"""Recipes read from TOML or plain tables, and everything refused that would not work."""

import tomllib
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

from builds.cure.engine import Stage
from builds.readings.engine import READINGS
from builds.readings.engine.kinds_of_work import KINDS
from builds.readings.engine.kinds_touch import touched
from builds.recipes.engine.eats import eaten
from builds.recipes.engine.recipe import Recipe, RecipeError, RecipeHold, RecipeJob, RecipeLink
from builds.recipes.engine.row import TableRow
from builds.work.engine.ranks import RANKS, refuse_rank
from builds.work.engine.urgency import cycle_sentence, find_cycle
from builds.work.engine.welds import Weld
from builds.work.engine.working_order import reached_from
from garage.engine.systems import SYSTEMS

FOLDER = Path(__file__).parents[1] / "shipped"

JOBS_MAX = 200
TITLE_MAX = 120
ASKS_MAX = 60
MINUTES_MAX = 60 * 24 * 60


@cache
def load_shipped() -> tuple[Recipe, ...]:
    """Every recipe that comes with the program, by title. RecipeError if one is broken."""
    texts = [path.read_text(encoding="utf-8") for path in sorted(FOLDER.glob("*.toml"))]
    return tuple(sorted(map(from_toml, texts), key=lambda recipe: recipe.title))


def recipe_title(key: str) -> str:
    """What a recipe is called, by the key that its jobs carry."""
    titles = {recipe.key: recipe.title for recipe in load_shipped()}
    return titles.get(key, key.replace("-", " "))


def from_toml(text: str) -> Recipe:
    """The recipe in a TOML text; RecipeError with one sentence if it cannot be used."""
    try:
        return from_dict(tomllib.loads(text))
    except tomllib.TOMLDecodeError as error:
        raise RecipeError(f"This recipe is not valid TOML: {error}.") from error


def from_dict(table: Mapping[str, Any]) -> Recipe:
    """The recipe in plain tables, as TOML or JSON give them; RecipeError with one sentence."""
    top = TableRow(table, "This recipe")
    key = top.slug("key")
    top.where = f"Recipe {key}"
    jobs = tuple(_job(item, top.where) for item in top.items("jobs", JOBS_MAX))
    holds = tuple(_hold(item, top.where) for item in top.items("station_holds"))
    recipe = Recipe(key, top.text("title", TITLE_MAX), top.text("summary"), jobs, holds)
    top.close()
    _check_links(recipe, top)
    return recipe


def _job(item: Any, recipe: str) -> RecipeJob:
    row = TableRow(item, f"{recipe}, a job")
    key = row.slug("key")
    row.where = f"{recipe}, job {key}"
    job = RecipeJob(
        key=key,
        title=row.text("title", TITLE_MAX),
        work=row.three_minutes("work", MINUTES_MAX),
        systems=row.words("systems", SYSTEMS, "system"),
        rank=row.choice("rank", RANKS),
        hands=row.whole("hands", 1, 0, 20),
        skill=row.optional_slug("skill"),
        stations=row.units("stations"),
        splits=row.flag("splits"),
        after=tuple(_link(link, row.where) for link in row.items("after")),
        hold_points=row.lines("hold_points"),
        asks=row.texts("asks", ASKS_MAX),
        weld=row.choice("weld", tuple(Weld)),
        before=row.flag("before"),
        each_side=row.flag("each_side"),
        kinds=row.words("kinds", KINDS, "kind of work"),
        measures=row.words("measures", READINGS, "reading"),
        parts=row.lines("parts"),
        drawer=row.lines("drawer"),
        eats=row.lines("eats"),
        tools=row.lines("tools"),
        note=row.text("note", required=False),
    )
    row.close()
    _check_job(job, row)
    return job


def _check_job(job: RecipeJob, row: TableRow) -> None:
    if job.rank and (refusal := refuse_rank(job.rank, touched(job.systems, job.kinds), job.note)):
        row.fail(refusal[0].lower() + refusal[1:-1])
    if strange := next((point for point in job.asks if point not in job.hold_points), None):
        row.fail(f"asks names {strange!r}, which is no hold point of it")
    if job.before and not job.measures:
        row.fail("before is for a job that measures")
    for line in job.eats:
        try:
            eaten(line)
        except ValueError as error:
            row.fail(str(error))
    if job.hands == 0 and job.skill:
        row.fail("a job that needs nobody cannot ask for a skill")


def _link(item: Any, job: str) -> RecipeLink:
    row = TableRow({"job": item} if isinstance(item, str) else item, f"{job}, a link")
    link = RecipeLink(
        job=row.slug("job"),
        wait_minutes=row.whole("wait_minutes", 0, 0, MINUTES_MAX),
        why=row.text("why", required=False),
        cure=row.optional_slug("cure"),
        stage=row.choice("stage", tuple(Stage)),
    )
    row.close()
    if link.stage and not link.cure:
        row.fail("a stage needs the product that cures")
    return link


def _hold(item: Any, recipe: str) -> RecipeHold:
    row = TableRow(item, f"{recipe}, a station hold")
    hold = RecipeHold(row.slug("station"), row.slug("from"), row.slug("until"))
    row.close()
    return hold


def _check_links(recipe: Recipe, top: TableRow) -> None:
    """Refuse a recipe whose jobs, links and station holds do not fit together."""
    if not recipe.jobs:
        top.fail("there is no job in it")
    titles: dict[str, str] = {}
    for job in recipe.jobs:
        if job.key in titles:
            top.fail(f"two jobs have the key {job.key}")
        titles[job.key] = job.title
    links = [(link.job, job.key) for job in recipe.jobs for link in job.after]
    _check_order(links, titles, top)
    for hold in recipe.station_holds:
        _check_hold(hold, links, titles, top)


def _check_order(links: list[tuple[str, str]], titles: dict[str, str], top: TableRow) -> None:
    for before, after in links:
        if before not in titles:
            top.fail(f"job {after} comes after {before}, which is not in the recipe")
    if len(set(links)) < len(links):
        twice = next(link for link in links if links.count(link) > 1)
        top.fail(f"job {twice[1]} comes after {twice[0]} twice")
    if cycle := find_cycle(links):
        top.fail(cycle_sentence(cycle, titles).rstrip("."))


def _check_hold(hold: RecipeHold, links: list[tuple[str, str]], titles: dict[str, str], top: TableRow) -> None:
    for key in (hold.first, hold.until):
        if key not in titles:
            top.fail(f"a station hold names {key}, which is not in the recipe")
    if hold.until not in (hold.first, *reached_from(hold.first, links)):
        top.fail(f"the station hold until {hold.until} does not follow from {hold.first}")
