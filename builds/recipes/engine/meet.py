"""Which jobs of a recipe a car has already: measured once at the end, however many recipes ask for it."""

from collections.abc import Collection, Hashable, Mapping
from dataclasses import dataclass
from typing import Generic, TypeVar

from builds.readings.engine.car_job import STAGE, CarJob, ChainStep
from builds.readings.engine.kinds_of_work import voided_by
from builds.readings.engine.order_of_work import Pair
from builds.readings.engine.sorts_of_job import ON_STANDS, looks_over
from builds.readings.engine.what_leads import Order
from builds.recipes.engine.recipe import Recipe, RecipeJob
from builds.recipes.engine.sides import side_of

# Tests that one job can do for several recipes, besides the steps of the measuring chain.
FUEL = "fuel_leak"
TESTS = ("brake_bleed", "master_switch", "earths", FUEL)
# What is closed in one job for all, and the reading that is taken once it is.
CLOSED = {"hub_opened": "bearing_play", "seat_or_belt_moved": "belt_geometry"}
# One job may do two of these steps; then it does each of them.
DONE_TOGETHER = frozenset({ChainStep.WEIGHED, ChainStep.TRIMMED, ChainStep.REAR_TOE, ChainStep.FRONT_TOE})
ALONE = "alone"
LISTED = ("Parts", "From the drawer", "Tools")  # lines of a note that are lists
Id = TypeVar("Id", bound=Hashable)


@dataclass(frozen=True, slots=True)
class JobOnCar:
    """A job of the car that nobody has begun."""

    title: str
    kinds: tuple[str, ...] = ()
    measures: tuple[str, ...] = ()


class _InOrder(Generic[Id]):
    """The jobs of the car, or of the recipe, and what stands behind what."""

    def __init__(self, jobs: Mapping[Id, CarJob], links: Collection[tuple[Id, Id]]) -> None:
        self.jobs, self.order = jobs, Order(links)

    def behind(self, id: Id) -> list[CarJob]:
        return [job for other, job in self.jobs.items() if self.order.leads(id, other)]

    def at_the_end(self, id: Id) -> bool:
        """Nothing follows that strips the car again, puts it on its wheels, or spoils what the job takes."""
        mine = self.jobs[id]
        return not any(
            (job.step is None and (job.does(ON_STANDS) or voided_by(job.kinds).intersection(mine.measures)))
            or (job.step is None and job.works and mine.runs)  # run to find what is wrong with it
            or (job.step == ChainStep.ON_WHEELS and mine.step is not None)
            for job in self.behind(id)
        )

    def latest(self, id: Id) -> ChainStep:
        """The step by which a job is over: the earliest of those that follow it."""
        return min((job.step for job in self.behind(id) if job.step is not None), default=ChainStep.DRIVEN)

    def ahead(self, id: Id) -> list[CarJob]:
        return [job for other, job in self.jobs.items() if self.order.leads(other, id)]

    def reads_before(self, id: Id) -> bool:
        """It only measures, ahead of work that spoils what it measures and after none on stands."""
        mine = self.jobs[id]
        read = STAGE.keys() & set(mine.measures)
        if mine.kinds or any(job.does(ON_STANDS) for job in self.ahead(id)):
            return False
        return any(voided_by(job.kinds) & read for job in self.behind(id) if job.step in (None, ChainStep.RACK))


def met(recipe: Recipe, on_car: Mapping[int, JobOnCar], links: Collection[Pair]) -> dict[str, int]:
    """For jobs of the recipe (key) the job of the car (id) that can serve for both.

    Two serve as one when they are the same work, when both read how the car stood before, when both
    take the same hub out, or close it or the belts, or when both stand at the same step at the end of the work and
    one takes all that the other does.
    `links` are those written down between jobs of the car. Never closes a circle, and never gives
    a job the last act of one that follows it.
    """
    within = [(link.job, job.key) for job in recipe.jobs for link in job.after]
    rows = {job.key: job for job in recipe.jobs}
    here = _InOrder({key: CarJob(job.kinds, job.measures) for key, job in rows.items()}, within)
    there = _InOrder({id: CarJob(job.kinds, job.measures) for id, job in on_car.items()}, links)
    joined: dict[str, int] = {}
    for key, wanted in rows.items():
        serving = [id for id in on_car if _serves(wanted, on_car[id], here, there, id)]
        # Two jobs of the recipe are one only where the car's does the work of both already.
        serving = [id for id in serving if id not in joined.values() or set(wanted.kinds) <= set(on_car[id].kinds)]
        for id in sorted(serving, key=lambda id: _fit(wanted, on_car[id])):
            if _holds_together({**joined, key: id}, within, there.order):
                joined[key] = id
                break
    return joined


def served(job: JobOnCar, on_car: Mapping[int, JobOnCar], links: Collection[Pair]) -> int | None:
    """The job of the car (id) that takes all that this one would, at the same step of the measuring chain.

    As for a recipe of that job alone; nothing is added to the job that serves, so that it has to do all of it.
    """
    row = RecipeJob(ALONE, job.title, (0, 0, 0), kinds=job.kinds, measures=job.measures)
    step = CarJob(job.kinds, job.measures).step
    taken = {slug for other in on_car.values() for slug in other.measures}
    whole = {id: other for id, other in on_car.items() if set(job.kinds) <= set(other.kinds)}
    if step is None or not taken.issuperset(job.measures):
        return None
    return met(Recipe(ALONE, job.title, "", (row,)), whole, links).get(ALONE)


def _fit(row: RecipeJob, job: JobOnCar) -> tuple[bool, bool, bool, int]:
    """The most alike first: by title, by kinds of work, by readings, the fuel's before others."""
    unlike = set(row.measures) ^ set(job.measures)
    return row.title.casefold() != job.title.casefold(), set(row.kinds) != set(job.kinds), FUEL in unlike, len(unlike)


def _serves(row: RecipeJob, job: JobOnCar, here: _InOrder[str], there: _InOrder[int], id: int) -> bool:
    mine, theirs = here.jobs[row.key], there.jobs[id]
    if _fit(row, job) == (False, False, False, 0):
        return True
    if row.before or there.reads_before(id):
        return row.before and there.reads_before(id)
    if side_of(row.title) == side_of(job.title) and _same_closing(mine, theirs):
        return True
    if FUEL in mine.measures and not mine.runs and _proved_apart(here.ahead(row.key), there.ahead(id)):
        return False
    if not (_same_test(mine, theirs) or _same_step(mine, theirs, here.latest(row.key), there.latest(id))):
        return False
    left = mine.works - theirs.works
    if any(left & later.works for later in there.behind(id)):
        return False  # that is the last act of a job behind it
    return here.at_the_end(row.key) and there.at_the_end(id)


def _same_test(one: CarJob, other: CarJob) -> bool:
    if one.step is not None or other.step is not None or one.runs != other.runs:
        return False
    if one.works - {"wheel_off"} or other.works - {"wheel_off"}:
        return False
    same = [test for test in TESTS if test in one.measures and test in other.measures]
    # While the engine runs one job reads all that is read then.
    return bool(same) and (one.runs or _within(one.measures, other.measures))


def _proved_apart(here: Collection[CarJob], there: Collection[CarJob]) -> bool:
    """Of two cold tests, with what comes ahead of each: what opens the fuel for one must not wait for the other.

    An engine that runs, or the last look before an event, ahead of the other leaves both to be made.
    """
    opens = [any(FUEL in voided_by(job.kinds) for job in jobs) for jobs in (here, there)]
    later = [any(job.runs or looks_over(job) for job in jobs) for jobs in (here, there)]
    return (opens[0] and later[1]) or (opens[1] and later[0])


def _same_closing(one: CarJob, other: CarJob) -> bool:
    """Both take the hub out, or close hub or belts again, and one of them does all that the other does."""
    if one.step is not None or other.step is not None:
        return False
    if not (_within(one.kinds, other.kinds) and _within(one.measures, other.measures)):
        return False
    kinds, taken = set(one.kinds) & set(other.kinds), set(one.measures) & set(other.measures)
    closes = any(kind in kinds and reading in taken for kind, reading in CLOSED.items())
    return closes or all(map(_takes_hub_out, (one, other)))


def _takes_hub_out(job: CarJob) -> bool:
    return {"wheel_off", "hub_opened"} <= set(job.kinds) and not job.measures


def _same_step(one: CarJob, other: CarJob, latest: ChainStep, latest_other: ChainStep) -> bool:
    """They stand at the same step, or what is asked for is only a part of what the other does.

    `latest` is the step by which each is to be over, by what follows it.
    """
    if one.step is None or other.step is None or ChainStep.DRIVEN in (one.step, other.step):
        return False
    if ChainStep.LOCKS in (one.step, other.step) and (one.works or other.works):
        return False  # one of them takes the wheels off
    in_order = one.step <= latest, other.step <= latest_other
    if all(in_order):
        return one.step == other.step or _part_of(one, other)
    if in_order[1]:
        return not one.kinds and _part_of(one, other) and other.step <= latest
    return in_order[0] and not other.kinds and _part_of(other, one) and one.step <= latest_other


def _part_of(one: CarJob, other: CarJob) -> bool:
    part = one.step in DONE_TOGETHER and set(one.kinds) <= set(other.kinds)
    return part and STAGE.keys() & set(one.measures) <= set(other.measures)


def _within(one: Collection[str], other: Collection[str]) -> bool:
    return set(one) <= set(other) or set(other) <= set(one)


def _holds_together(joined: Mapping[str, int], within: Collection[tuple[str, str]], there: Order[int]) -> bool:
    """Whether the recipe's links and the car's still run in no circle when these are one."""
    order: Order[str | int] = there.copy()
    for before, after in within:
        first, then = joined.get(before, before), joined.get(after, after)
        if first != then and order.leads(then, first):
            return False
        order.take(first, then)
    return True


def holds_together(recipe: Recipe, joined: Mapping[str, int], links: Collection[Pair]) -> bool:
    """Whether work runs in no circle when these jobs of the recipe (key) are jobs of the car (id), by its links."""
    within = [(link.job, job.key) for job in recipe.jobs for link in job.after]
    return _holds_together(joined, within, Order(links))


def joined_note(note: str, more: str, asked: str) -> str:
    """Both notes as one: no line twice, and one line each for all of the drawer and all tools."""
    lines: dict[str, None] = {}
    lists: dict[str, dict[str, None]] = {}
    for line in (*note.splitlines(), *more.splitlines(), asked):
        label, _, named = line.partition(": ")
        if label in LISTED:
            lists.setdefault(label, {}).update(dict.fromkeys(named.removesuffix(".").split(", ")))
        elif line:
            lines[line] = None
    told = [f"{label}: {', '.join(lists[label])}." for label in LISTED if label in lists]
    return "\n".join([*lines, *told])
