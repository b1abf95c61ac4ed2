"""What the log says of the estimates, in words."""

from dataclasses import dataclass

from builds.plan.facts.log_factors import log_factors
from garage.engine.systems import SYSTEM_LABELS
from garage.models import Garage


@dataclass(frozen=True)
class LogSays:
    """One system: what the log says of it, and how much of it there is."""

    label: str
    sentence: str
    jobs: int


def log_says(garage: Garage) -> list[LogSays]:
    """Those furthest from what was written down first."""
    furthest_first = sorted(log_factors(garage).values(), key=lambda factor: -abs(factor.times - 1))
    return [
        LogSays(
            SYSTEM_LABELS[factor.kind],
            factor.sentence(SYSTEM_LABELS[factor.kind].lower()),
            factor.jobs,
        )
        for factor in furthest_first
    ]
