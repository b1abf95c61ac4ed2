"""A recipe: the job list of a known piece of work, and the way it is checked and written down."""

from collections.abc import Mapping
from dataclasses import dataclass, field, fields
from functools import cached_property
from typing import Any

from builds.readings.engine import in_measuring_order
from builds.readings.engine.kinds_of_work import voided_by

SKILLS: dict[str, str] = {
    "fit": "Fitting",
    "weld": "Welding",
    "paint": "Painting",
    "wire": "Wiring",
    "align": "Alignment",
    "brakes": "Brakes",
}
STATIONS: dict[str, str] = {
    "bay": "The bay",
    "driveway": "Driveway",
    "welder": "Welding bench",
    "paint": "Paint corner",
    "floor": "Level floor",
}


class RecipeError(ValueError):
    """A recipe that cannot be used, in one sentence that names the recipe and the job."""


@dataclass(frozen=True, slots=True)
class RecipeLink:
    """The job (key) that comes before, and the minutes of waiting after it ends.

    Waits are elapsed time: a cure runs through the night. `cure` names the product that is waited
    for; with a `stage` of it (see `cure.Stage`) the time is computed, and the wait is a guess.
    """

    job: str
    wait_minutes: int = 0
    why: str = ""
    cure: str | None = None
    stage: str | None = None


@dataclass(frozen=True, slots=True)
class RecipeJob:
    """One job of a recipe; `work` in minutes of hands-on time: goes well, likely, fights back.

    `before`: what it measures says how the car stood before the work, and is not taken again.
    `each_side`: done on the left and on the right of the car, each for itself. `by_hand`: called otherwise this time,
    so that the recipe does not say what it opens.
    `parts`: what the work cannot be done without and is bought for that car, with how many (`bought`): needs of its
    job. `drawer`: what a garage has by the box, the tin or the roll; `eats` says how much of it is used up.
    """

    key: str
    title: str
    work: tuple[int, int, int]
    systems: tuple[str, ...] = ()
    rank: str | None = None
    hands: int = 1
    skill: str | None = None
    stations: Mapping[str, int] = field(default_factory=dict)
    splits: bool = False
    after: tuple[RecipeLink, ...] = ()
    hold_points: tuple[str, ...] = ()
    asks: Mapping[str, str] = field(default_factory=dict)
    weld: str | None = None
    before: bool = False
    each_side: bool = False
    by_hand: bool = False
    kinds: tuple[str, ...] = ()
    measures: tuple[str, ...] = ()
    parts: tuple[str, ...] = ()
    drawer: tuple[str, ...] = ()
    eats: tuple[str, ...] = ()
    tools: tuple[str, ...] = ()
    note: str = ""


@dataclass(frozen=True, slots=True)
class RecipeHold:
    """From the start of job `first` to the end of job `until` the car cannot leave the station."""

    station: str
    first: str
    until: str


@dataclass(frozen=True)
class Recipe:
    """A known piece of work as a chain of jobs."""

    key: str
    title: str
    summary: str
    jobs: tuple[RecipeJob, ...]
    station_holds: tuple[RecipeHold, ...] = ()

    @property
    def likely(self) -> int:
        """Minutes of work if all goes as it usually does."""
        return sum(job.work[1] for job in self.jobs)

    @cached_property
    def voids(self) -> tuple[str, ...]:
        """Readings (slugs) that the work makes void, in measuring order."""
        return in_measuring_order(voided_by({kind for job in self.jobs for kind in job.kinds}))

    @cached_property
    def measures(self) -> tuple[str, ...]:
        """Readings (slugs) that the recipe's own jobs take after its work, in measuring order."""
        return in_measuring_order({slug for job in self.jobs if not job.before for slug in job.measures})

    @cached_property
    def leaves_void(self) -> tuple[str, ...]:
        """Readings (slugs) void after the work that no job of the recipe takes."""
        return tuple(slug for slug in self.voids if slug not in self.measures)


def to_dict(recipe: Recipe) -> dict[str, Any]:
    """The recipe as plain lists, numbers and strings, ready for JSON; defaults are left out.

    `recipe_parse.from_dict` reads it back to an equal recipe.
    """
    return {
        "key": recipe.key,
        "title": recipe.title,
        "summary": recipe.summary,
        "station_holds": [
            {"station": hold.station, "from": hold.first, "until": hold.until} for hold in recipe.station_holds
        ],
        "jobs": [_changed(job) | {"after": [_changed(link) for link in job.after]} for job in recipe.jobs],
    }


def _changed(item: RecipeJob | RecipeLink) -> dict[str, Any]:
    table: dict[str, Any] = {}
    for column in fields(item):
        value = getattr(item, column.name)
        if value not in (column.default, (), {}):
            table[column.name] = list(value) if isinstance(value, tuple) else value
    return table
