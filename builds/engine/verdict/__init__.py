"""Fit to run or not: facts about one car in, a sentence and every reason out, worst first."""

from builds.engine.verdict.covered import JOINTS, covered
from builds.engine.verdict.facts import Facts, HoldFact, JobFact, StripFact
from builds.engine.verdict.judge import Verdict, verdict
from builds.engine.verdict.reasons import Reason, Severity

__all__ = [
    "JOINTS",
    "Facts",
    "HoldFact",
    "JobFact",
    "Reason",
    "Severity",
    "StripFact",
    "Verdict",
    "covered",
    "verdict",
]
