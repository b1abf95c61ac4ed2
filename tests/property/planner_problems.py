"""Small random problems that touch every rule of the planner's contract."""

from __future__ import annotations

from typing import Any

from hypothesis import strategies as st

from builds.planner.problem import Hold, Job, Link, Person, Problem, Promise, Station, Vehicle

SKILLS = ("weld", "fit")


@st.composite
def windows(draw: st.DrawFn, slots: int) -> tuple[tuple[int, int], ...] | None:
    """None, or up to four windows that neither touch nor overlap."""
    if draw(st.integers(0, 2)) == 0:
        return None
    edges = sorted(draw(st.sets(st.integers(0, slots), min_size=2, max_size=8)))
    return tuple(zip(edges[::2], edges[1::2], strict=False))


@st.composite
def jobs(draw: st.DrawFn, number: int, slots: int, people: list[Person], plain: bool) -> Job:
    """One job; a plain one keeps to the contract, without the keys beyond it."""
    hands = draw(st.sampled_from((0, 1, 1, 2)))
    extra: dict[str, Any] = {}
    if not plain:
        kind = draw(st.integers(0, 9))
        if kind == 0:
            extra["pinned"] = draw(st.integers(0, slots))
        elif kind == 1:
            extra["started"] = True
        elif kind == 2 and 0 < hands <= len(people):
            names = [person.id for person in people]
            extra["crew"] = tuple(draw(st.permutations(names))[:hands])
    units = draw(st.dictionaries(st.sampled_from(("bay", "floor")), st.integers(0, 2), max_size=2))
    return Job(
        id=f"j{number}",
        vehicle=draw(st.sampled_from(("heron", "moth", None))),
        rank=draw(st.sampled_from(("safety", "needed", "wanted"))),
        work=draw(st.sampled_from((0, 1, 2, 3, 5))),
        hands=hands,
        weight=draw(st.integers(1, 3)),
        skill=draw(st.sampled_from((None, None, *SKILLS))),
        uses=units,
        splits=draw(st.booleans()),
        earliest=draw(st.sampled_from((0, 0, 3, slots // 2))),
        due=draw(st.sampled_from((None, 0, slots // 2, slots - 1))),
        windows=draw(windows(slots)) if draw(st.integers(0, 3)) == 0 else None,
        **extra,
    )


@st.composite
def links(draw: st.DrawFn, count: int, slots: int, plain: bool) -> tuple[Link, ...]:
    """Links that lead forwards by number, some with waits, some with a table of ready times."""
    found = []
    for then in range(1, count):
        for first in draw(st.sets(st.integers(0, then - 1), max_size=2)):
            wait = draw(st.sampled_from((0, 0, 1, 4)))
            ready = None
            if not plain and draw(st.integers(0, 3)) == 0:
                step = draw(st.integers(1, 6))
                ready = tuple(-(-(end + wait) // step) * step for end in range(slots + 1))
            found.append(Link(f"j{first}", f"j{then}", wait, ready))
    return tuple(found)


def holds_of(car: str, made: list[Job]) -> list[st.SearchStrategy[Hold]]:
    """A hold of the car from one of its jobs to the same or a later one, if it has any."""
    mine = [job.id for job in made if job.vehicle == car]
    spans = [(first, last) for k, first in enumerate(mine) for last in mine[k:]]
    station, units = st.sampled_from(("bay", "bay", "floor")), st.sampled_from((1, 1, 1, 0, 2, 3))
    built = st.builds(
        lambda span, at, places: Hold(car, at, *span, places), st.sampled_from(spans or [("", "")]), station, units
    )
    return [built] if spans else []


@st.composite
def problems(draw: st.DrawFn, most_jobs: int = 7, plain: bool = False, fewest_slots: int = 6) -> Problem:
    """A problem of up to `most_jobs` jobs, two cars, three people and two stations."""
    slots = draw(st.integers(fewest_slots, 40))
    people = [
        Person(f"p{k}", tuple(sorted(draw(st.sets(st.sampled_from(SKILLS))))), draw(windows(slots)))
        for k in range(draw(st.integers(0, 3)))
    ]
    count = draw(st.integers(0, most_jobs))
    made = [draw(jobs(k, slots, people, plain)) for k in range(count)]
    holds = [draw(hold) for car in ("heron", "moth", "heron") for hold in holds_of(car, made) if draw(st.booleans())]
    before = ()
    if not plain and count and draw(st.booleans()):
        before = tuple(
            Promise(job.id, draw(st.integers(-5, slots)), tuple(p.id for p in people[: job.hands])) for job in made
        )
    return Problem(
        slots=slots,
        jobs=tuple(made),
        people=tuple(people),
        stations=(
            Station("bay", draw(st.integers(0, 3)), draw(windows(slots)), stands=draw(st.booleans())),
            Station("floor", draw(st.integers(1, 2)), stands=draw(st.booleans())),
        ),
        vehicles=(Vehicle("heron", 2), Vehicle("moth", 1)),
        links=draw(links(count, slots, plain)),
        holds=tuple(holds),
        goal=draw(st.sampled_from(("event", "event", "finish"))),
        before=before,
    )
