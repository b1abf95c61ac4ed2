"""A value of the bench: what is typed into a sum, what must come out, and who says so."""

from dataclasses import dataclass, field


@dataclass(frozen=True)
class Value:
    """What is `typed` into a `sum`, what must come out to `within` (or to a part in a million), and who says so."""

    topic: str
    sum: str
    source: str
    typed: dict[str, str]
    answers: dict[str, float]
    within: float = 1e-6
    words: dict[str, str] = field(default_factory=dict)
