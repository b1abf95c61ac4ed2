"""Whether the finish of a job asks what was opened."""

from builds.steps.engine.opened import asks_what_was_opened
from builds.steps.facts.looks import for_safety
from builds.work.models.job import Job


def asks(job: Job) -> bool:
    said, likely = job.kinds, job.kinds_likely
    return asks_what_was_opened(safety=for_safety(job), of_recipe=bool(job.recipe), kinds=said, likely=likely)
