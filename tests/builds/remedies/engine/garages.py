"""Small garages with a late car. A day is 96 slots of 15 minutes, evenings run from 72 to 86."""

from builds.planner.problem import Job, Link, Person, Problem, Station, Vehicle

DAY = 96


def evenings(*days, since=72, until=86):
    return tuple((DAY * day + since, DAY * day + until) for day in days)


def job(name, work=8, vehicle="heron", **more):
    more.setdefault("due", 2 * DAY)
    more.setdefault("hands", 1)
    return Job(name, vehicle, more.pop("rank", "needed"), work, title=name.capitalize(), **more)


def garage(*jobs, people=(), links=(), stations=(), **more):
    return Problem(
        slots=7 * DAY,
        jobs=jobs,
        people=people or (Person("ines", ("weld",), evenings(*range(7)), name="Ines"),),
        links=links,
        stations=stations,
        vehicles=(Vehicle("heron", 3, name="Heron"), Vehicle("badger", 1, name="Badger")),
        **more,
    )


def bay(capacity=1):
    return Station("bay", capacity, name="The bay")


__all__ = ["DAY", "Job", "Link", "Person", "bay", "evenings", "garage", "job"]
