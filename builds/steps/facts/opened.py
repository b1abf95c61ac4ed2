"""What the finish of a job asks: what was opened, and what it measured or fitted."""

from collections.abc import Collection

from builds.steps.engine.by_words import job_said
from builds.steps.engine.opened import asks_what_was_opened, opens_nothing_of
from builds.steps.facts.looks import for_safety, unread
from builds.work.models.job import Job


def asks(job: Job) -> bool:
    return asks_what_was_opened(
        safety=for_safety(job),
        told=_told(job),
        systems=job.systems,
        kinds=job.kinds,
        likely=job.kinds_likely,
    )


def _told(job: Job) -> bool:
    """Whether what it opens is known: its recipe says it, or it measures and its words name nothing else."""
    measures = job.measures and not job.kinds and not job_said(job.title, job.systems).likely
    return bool(job.recipe or measures)


def wants_reason(job: Job, kinds: Collection[str]) -> bool:
    """Whether a finish that says that (kinds) was opened has to say why nothing of its systems was.

    What stood there before anybody began is not said by the finish.
    """
    by_finish = job.kinds_likely or not kinds or set(kinds) != set(job.kinds)
    by_hand = job.kinds_likely or not _told(job)
    # Of which nobody said what it touches may have touched anything.
    unsaid = unread(job) or not (job.systems or job.kinds)
    return by_finish and by_hand and (unsaid or for_safety(job)) and opens_nothing_of(job.systems, kinds)


def has_more_to_say(job: Job, *, wants_parts: bool) -> bool:
    """Whether its finish is drawn as a form: it asks, takes readings, or wants parts."""
    return wants_parts or bool(job.measures) or asks(job)
