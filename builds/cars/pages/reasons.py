"""What stands in a car's way, and where that is cleared."""

from dataclasses import dataclass

from builds.verdict.engine import Verdict
from builds.verdict.pages import reason_url


@dataclass(frozen=True)
class ReasonLine:
    """What stands in the way, what would clear it, and where that is done."""

    sentence: str
    clears: str
    url: str


def reason_lines(verdict: Verdict) -> tuple[ReasonLine, ...]:
    return tuple(ReasonLine(reason.sentence, reason.clears, reason_url(reason)) for reason in verdict.reasons)
