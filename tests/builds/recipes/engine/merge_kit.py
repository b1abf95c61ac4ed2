"""Recipes put on one car in memory, as the action does it, and orders in which its work can be done."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass, field
from random import Random

from builds.readings.engine.car_job import CarJob
from builds.readings.engine.order_of_work import Pair, order_of_work
from builds.recipes.engine.meet import JobOnCar, met
from builds.recipes.engine.recipe import Recipe, RecipeJob


@dataclass
class Job:
    """A job of the car, and the recipes' jobs that it is: (recipe, key)."""

    title: str
    kinds: tuple[str, ...]
    measures: tuple[str, ...]
    systems: tuple[str, ...]
    hold_points: tuple[str, ...] = ()
    rows: list[tuple[str, RecipeJob]] = field(default_factory=list)
    before: bool = False

    def take_over(self, recipe: str, row: RecipeJob) -> None:
        for name in ("kinds", "measures", "systems", "hold_points"):
            setattr(self, name, tuple(dict.fromkeys((*getattr(self, name), *getattr(row, name)))))
        self.rows.append((recipe, row))


@dataclass
class Car:
    jobs: dict[int, Job] = field(default_factory=dict)
    links: set[Pair] = field(default_factory=set)
    kept: dict[Pair, str] = field(default_factory=dict)

    @property
    def strips(self) -> set[Pair]:
        """From which job to which the car stands in one place, kept there."""
        return {*self.kept}

    def put(self, recipe: Recipe) -> None:
        there = {id: JobOnCar(job.title, job.kinds, job.measures) for id, job in self.jobs.items()}
        ids = met(recipe, there, self.links)
        for row in recipe.jobs:
            if row.key not in ids:
                ids[row.key] = len(self.jobs)
                self.jobs[ids[row.key]] = Job(row.title, (), (), (), before=row.before)
            self.jobs[ids[row.key]].take_over(recipe.key, row)
        ends = {(ids[link.job], ids[row.key]) for row in recipe.jobs for link in row.after}
        self.links |= {(before, after) for before, after in ends if before != after}
        self.kept |= {(ids[hold.first], ids[hold.until]): hold.station for hold in recipe.station_holds}

    def car_jobs(self) -> dict[int, CarJob]:
        return {id: CarJob(job.kinds, job.measures, job.systems) for id, job in self.jobs.items()}

    def all_links(self) -> set[Pair]:
        return self.links | set(order_of_work(self.car_jobs(), self.links, sorted(self.strips)))


def car_with(recipes: Iterable[Recipe]) -> Car:
    car = Car()
    for recipe in recipes:
        car.put(recipe)
    return car


def some_order(ids: Collection[int], links: Iterable[Pair], seed: int) -> list[int]:
    """The jobs one after another, as some plan that keeps the links might; a circle is an AssertionError."""
    waits: dict[int, set[int]] = {id: set() for id in ids}
    for before, after in links:
        waits[after].add(before)
    chance, done = Random(seed), []
    while len(done) < len(waits):
        ready = sorted(id for id in waits if id not in done and waits[id] <= set(done))
        assert ready, "in a circle"
        done.append(chance.choice(ready))
    return done
