"""What a plan was made from, so that a later look can tell what has changed."""

from dataclasses import asdict, dataclass, field
from typing import Any

Table = dict[str, dict[str, Any]]
SHOP = "the shop"


def called_for(what: str, whom: str) -> str:
    """What is taken for what, by the names of both: `Kiln Lane for Heron`, `Tug for Kiln Lane`."""
    return f"{what} for {whom}"


@dataclass(frozen=True)
class Basis:
    """By the id in the problem: what each row is called, and a digest of what the plan used.

    `refused` holds the jobs that no plan can place as they are, each with its sentence; `sessions` are
    the moments at which the next ones begin; `opens` are the first slots at which all but their parts
    let jobs start, where that is later than at once; `if_ordered` those at which jobs that wait for parts which
    nobody has ordered could start if these lay here.
    """

    at: str
    jobs: Table
    people: Table
    stations: Table
    cars: Table
    shop: Table
    refused: dict[str, str] = field(default_factory=dict)
    sessions: list[str] = field(default_factory=list)
    opens: dict[str, int] = field(default_factory=dict)
    if_ordered: dict[str, int] = field(default_factory=dict)

    def table(self) -> dict[str, Any]:
        """The form in which a plan stores it."""
        return asdict(self)
