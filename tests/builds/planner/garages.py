"""Made garages: three cars of thirteen jobs, evenings and weekends, a bay that two stripped cars keep, cures."""

from __future__ import annotations

from dataclasses import replace
from random import Random

from builds.planner.problem import Hold, Job, Link, Person, Problem, Station, Vehicle

DAY, WEEKS, JOBS = 96, 6, 13
SKILLS = ("weld", "fit", "align")
STATIONS = (Station("bay", stands=True), Station("floor", stands=True), Station("bench"))


def garage(seed: int) -> Problem:
    """The same one for the same seed."""
    random = Random(seed)
    jobs: list[Job] = []
    links: dict[tuple[str, str], Link] = {}
    cars = tuple(Vehicle(f"car{c}", random.choice((1, 2, 3))) for c in range(3))
    for car in cars:
        mine = _jobs(random, car.id)
        _link(random, mine, links)
        jobs += mine
    return Problem(
        WEEKS * 7 * DAY,
        tuple(jobs),
        tuple(_person(random, number) for number in range(3)),
        STATIONS,
        cars,
        tuple(links.values()),
        tuple(Hold(car.id, "bay", f"{car.id}-2", f"{car.id}-6") for car in cars[:2]),
    )


def with_one_more(problem: Problem, seed: int, work: int) -> Problem:
    """A job of so many slots for one of the cars, before the last one there."""
    random = Random(f"more {seed}")
    car = random.choice(problem.vehicles).id
    last = [job for job in problem.jobs if job.vehicle == car][-1]
    more = Job("more", car, random.choice(("safety", "needed")), work, 1, due=last.due)
    return replace(problem, jobs=(*problem.jobs, more), links=(*problem.links, Link("more", last.id)))


def _person(random: Random, number: int) -> Person:
    """In on four days of the week; the first of all can do everything."""
    days = sorted(random.sample(range(7), 4))
    hours = [(40, 72) if day > 4 else (72, 88) for day in range(7)]
    windows = [
        (at + hours[day][0], at + hours[day][1])
        for week in range(WEEKS)
        for day in days
        for at in [(week * 7 + day) * DAY]
    ]
    return Person(f"p{number}", tuple(s for s in SKILLS if not number or random.random() < 0.6), tuple(windows))


def _jobs(random: Random, car: str) -> list[Job]:
    due = random.randrange(10, 22) * DAY + 40
    return [
        Job(
            f"{car}-{n}",
            car,
            "needed" if n == JOBS - 1 else random.choices(("safety", "needed", "wanted"), (2, 5, 2))[0],
            random.choice((1, 2, 3, 4, 4, 6, 8, 12)),
            2 if random.random() < 0.1 else 1,
            skill=random.choice((None, None, None, *SKILLS)),
            uses={"bay": 1} if 2 <= n < 7 else {"floor": 1} if n == JOBS - 2 else {},
            splits=random.random() < 0.7,
            due=due,
        )
        for n in range(JOBS)
    ]


def _link(random: Random, mine: list[Job], links: dict[tuple[str, str], Link]) -> None:
    """To some of the last five before each job, sometimes with a cure; all that must be done before the last."""
    for n, job in enumerate(mine[1:], 1):
        for _ in range(random.choice((0, 1, 1, 2))):
            first = mine[random.randrange(max(0, n - 5), n)].id
            links.setdefault((first, job.id), Link(first, job.id, random.choice((0, 0, 0, 0, 48, 96))))
    ends = [(mine[2], mine[6]), *((job, mine[-1]) for job in mine[:-1] if job.must_do)]
    for first, then in ends:
        links.setdefault((first.id, then.id), Link(first.id, then.id))
