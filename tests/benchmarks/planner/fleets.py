"""Made fleets of any size: evenings and weekends, chains of welding, paint and cure, held bays."""

from __future__ import annotations

from random import Random

from builds.planner.problem import Hold, Job, Link, Person, Problem, Station, Vehicle

DAY = 96
SKILLS = (("weld", "paint", "align", "fit", "wire"), ("fit", "wire", "align"), ("fit", "weld"))


def made_fleet(jobs: int, seed: int = 1, load: float = 0.9) -> Problem:
    """A fleet of about `jobs` jobs, one car for every thirty, with `load` of its hours asked for.

    Jobs come in chains of four (strip, weld, prime, refit after a cure) and in odd pieces, with an
    alignment at the end of each car; every car holds the bay through its first chain.
    """
    random = Random(seed)
    cars = max(1, jobs // 30)
    rows: list[Job] = []
    links: list[Link] = []
    holds: list[Hold] = []
    for car in range(cars):
        _car(f"v{car}", jobs // cars, random, rows, links, holds)
    asked = sum(job.work * job.hands for job in rows)
    people, days = _people(asked / load, random, 2 + cars // 3)
    slots = days * DAY
    dues = {f"v{car}": random.randrange(int(slots * 0.5), slots - DAY) for car in range(cars)}
    return Problem(
        slots=slots,
        jobs=tuple(_due(job, dues[job.vehicle or ""]) for job in rows),
        people=people,
        stations=(
            Station("bay", max(1, cars // 6)),
            Station("driveway", 2 + cars // 6, _daily(days, 32, 84)),
            Station("welder", max(1, cars // 6), _daily(days, 36, 82)),
            Station("paint", max(1, cars // 6)),
            Station("floor", 1),
        ),
        vehicles=tuple(Vehicle(name, random.randint(1, 3)) for name in dues),
        links=tuple(links),
        holds=tuple(holds),
    )


def _car(car: str, count: int, random: Random, rows: list[Job], links: list[Link], holds: list[Hold]) -> None:
    mine: list[str] = []
    ends: list[str] = []

    def add(rank: str, work: int, skill: str, station: str | None, splits: bool, hands: int) -> str:
        name = f"{car}-{len(mine):02}"
        uses = {station: 1} if station else {}
        rows.append(Job(name, car, rank, work, hands, 1, skill, uses, splits))
        mine.append(name)
        return name

    while len(mine) < count - 2:
        if random.random() < 0.5 and len(mine) < count - 6:
            place = random.choice(("bay", "driveway")) if holds and holds[-1].vehicle == car else "bay"
            chain = [
                add("safety", random.randint(3, 8), "fit", place, True, 1),
                add("safety", random.randint(3, 12), "weld", "welder", True, 1),
                add("safety", random.randint(2, 3), "paint", "paint", False, 1),
                add("safety", random.randint(3, 9), "fit", place, True, 1 + (random.random() < 0.2)),
            ]
            waits = (0, 0, random.randint(40, 130))
            links += [Link(a, b, w) for a, b, w in zip(chain, chain[1:], waits, strict=False)]
            if not (holds and holds[-1].vehicle == car):
                holds.append(Hold(car, "bay", chain[0], chain[3]))
            ends.append(chain[3])
        else:
            rank = random.choice(("needed", "wanted", "wanted"))
            name = add(
                rank,
                random.randint(1, 12),
                random.choice(("fit", "wire")),
                random.choice((None, "bay", "driveway")),
                random.random() < 0.7,
                1,
            )
            if ends and random.random() < 0.3:
                links.append(Link(random.choice(ends), name))
    level = add("safety", random.randint(4, 8), "fit", "floor", False, 2)
    align = add("safety", random.randint(4, 8), "align", "floor", False, 1)
    links.extend(Link(name, level) for name in ends)
    links.append(Link(level, align))


def _people(hours: float, random: Random, count: int) -> tuple[tuple[Person, ...], int]:
    """People with evenings and weekends until they have the hours between them; and the days."""
    windows: list[list[tuple[int, int]]] = [[] for _ in range(count)]
    day, given = 0, 0
    while given < hours or day < 14:
        for person in windows:
            begin, length = random.randint(70, 76), random.randint(8, 18)
            spans = [(begin, min(begin + length, 94))]
            if day % 7 >= 5:
                spans = [(random.randint(32, 40), random.randint(48, 56)), spans[0]]
            if random.random() < 0.55 or day % 7 >= 5:
                person += [(day * DAY + a, day * DAY + b) for a, b in spans]
                given += sum(b - a for a, b in spans)
        day += 1
    people = tuple(Person(f"p{k}", SKILLS[k % 3], tuple(spans)) for k, spans in enumerate(windows))
    return people, day


def _daily(days: int, begin: int, end: int) -> tuple[tuple[int, int], ...]:
    return tuple((day * DAY + begin, day * DAY + end) for day in range(days))


def _due(job: Job, due: int) -> Job:
    return Job(
        job.id,
        job.vehicle,
        job.rank,
        job.work,
        job.hands,
        job.weight,
        job.skill,
        job.uses,
        job.splits,
        0,
        due,
    )
