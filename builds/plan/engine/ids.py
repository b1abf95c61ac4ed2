"""The ids that rows have in a problem, such as `job-12` and `person-3`: written and read here alone."""

FACT = "fact"
CORNER = "corner"
"""Begins the id of one corner of a car, where one job at a time is done."""


def id_of(kind: str, pk: int | None) -> str:
    """`job-12`: the row of that kind (job, car, person or station) in a problem."""
    return f"{kind}-{pk}"


def fact_id(hold: int) -> str:
    """`fact-7`: what stands for the beginning of the station hold (pk) that had begun before the plan."""
    return id_of(FACT, hold)


def skilled_id(where: str, skill: str) -> str:
    """`night-4-Welding`: those at a station or in a paddock (its id) who have a skill (its name)."""
    return f"{where}-{skill}"


def pk_of(problem_id: str) -> int:
    """The pk of the row behind an id written here."""
    return int(problem_id.rpartition("-")[2])


def is_fact(problem_id: str) -> bool:
    """Whether an id is that of a `fact_id` and not of a job."""
    return problem_id.startswith(f"{FACT}-")


def is_of(kind: str, problem_id: str) -> bool:
    """Whether an id is that of a row of that kind."""
    return problem_id.startswith(f"{kind}-")
