"""Fit to run or not: facts about one car in, a sentence and every reason out, worst first."""

from builds.gear.engine import GearFact
from builds.verdict.engine.facts import AheadFact, Facts, HoldFact, JobFact, StripFact
from builds.verdict.engine.judge import Verdict, verdict
from builds.verdict.engine.records import (
    CheckFact,
    CureFact,
    DoubtFact,
    JointFact,
    PartFact,
    ReadingFact,
    StaleList,
    WeldFact,
)
from builds.verdict.engine.severity import Reason, Severity

__all__ = [
    "AheadFact",
    "CheckFact",
    "CureFact",
    "DoubtFact",
    "Facts",
    "GearFact",
    "HoldFact",
    "JobFact",
    "JointFact",
    "PartFact",
    "ReadingFact",
    "Reason",
    "Severity",
    "StaleList",
    "StripFact",
    "Verdict",
    "WeldFact",
    "verdict",
]
