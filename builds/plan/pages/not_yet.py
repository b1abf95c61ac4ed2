"""What a planned job waits for that is no other job."""

from datetime import datetime

from builds.plan.engine.timed_plan import TimedPlan
from garage.clock import clock_words


def not_yet(plan: TimedPlan, job: str, at: datetime) -> str:
    """What a job (id) waits for that is no other job: a part, a date; empty where it may begin."""
    asked = plan.jobs[job]
    opens = plan.clock.moment(asked.earliest)
    # The first slot of a plan begins with the next quarter of an hour: what is there from then on is there now.
    if asked.earliest <= 0 or opens <= at:
        return ""
    return f"It waits for {asked.waits_for}." if asked.waits_for else f"Not before {clock_words(opens, at)}."
