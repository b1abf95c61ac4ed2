"""What a car would be once a part was taken off it and owed to it."""

from dataclasses import replace

from builds.verdict.engine import Facts, JobFact, Verdict, verdict
from builds.work.engine.ranks import rank_for

NOT_YET_WRITTEN = 0


def owed_rank(systems: tuple[str, ...]) -> str:
    """The rank of the job that gives a part of these systems (slugs) back."""
    return rank_for(systems) or "needed"


def verdict_when_owed(facts: Facts, part: str, systems: tuple[str, ...]) -> Verdict:
    """The verdict of a car with the job that gives the part back on top of its others. Errors as `verdict`."""
    owed = JobFact(NOT_YET_WRITTEN, f"Owed: {part}", owed_rank(systems), "open", systems, fault=True, off=part)
    return verdict(replace(facts, jobs=(*facts.jobs, owed)))
