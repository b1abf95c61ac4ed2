"""Fit to run or not: facts about one car in, a sentence and every reason out, worst first."""

from builds.engine.verdict.covered import JOINTS, covered
from builds.engine.verdict.facts import Facts, HoldFact, JobFact, StripFact
from builds.engine.verdict.judge import Verdict, verdict
from builds.engine.verdict.records import CheckFact, GearFact, JointFact, PartFact, ReadingFact
from builds.engine.verdict.severity import Reason, Severity

__all__ = [
    "JOINTS",
    "CheckFact",
    "Facts",
    "GearFact",
    "HoldFact",
    "JobFact",
    "JointFact",
    "PartFact",
    "ReadingFact",
    "Reason",
    "Severity",
    "StripFact",
    "Verdict",
    "covered",
    "verdict",
]
