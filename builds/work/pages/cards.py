"""What a tag shows of a car or a job: the one shape for pages, fragments and sheets."""

from dataclasses import dataclass, field


@dataclass(frozen=True)
class CarCard:
    """`sentence` is the verdict, `word` the shortest of it; `reasons` its list, worst first; `left` the work to do."""

    pk: int
    url: str
    name: str
    tape: str
    line: str
    sentence: str
    do_not_drive: bool = False
    reasons: tuple[str, ...] = ()
    stripe: str = ""
    word: str = ""
    left: str = ""


@dataclass(frozen=True)
class JobCard:
    """`stripe` is none, half, dashed, full, cure, hold or dropped; the tag says it in words, or in this `word`.

    `recipe` is the key of the recipe that it came with; `left_minutes` what is still to do. `hands` are those (pk) who
    have it in hand where somebody else looks at it afterwards: who is none of them is told first what a finish costs.
    """

    pk: int
    url: str
    title: str
    kicker: str
    vehicle: str
    tape: str
    rank: str
    stripe: str
    meta: tuple[str, ...] = ()
    ready: str = ""
    note: str = ""
    urgent_from: str = ""
    steps: tuple[str, ...] = field(default=())
    state: str = ""
    recipe: str = ""
    word: str = ""
    left_minutes: int = 0
    hands: tuple[int, ...] = ()

    @property
    def in_hand(self) -> bool:
        return self.stripe == "half"
