"""What the finish of a job asks: what was opened, and what it measured or fitted."""

from builds.steps.engine.opened import asks_what_was_opened
from builds.steps.facts.looks import for_safety
from builds.work.models.job import Job


def asks(job: Job) -> bool:
    said, likely = job.kinds, job.kinds_likely
    return asks_what_was_opened(safety=for_safety(job), of_recipe=bool(job.recipe), kinds=said, likely=likely)


def has_more_to_say(job: Job, *, wants_parts: bool) -> bool:
    """Whether its finish is drawn as a form: it asks, takes readings, or wants parts."""
    return wants_parts or bool(job.measures) or asks(job)
