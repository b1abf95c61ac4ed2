"""What the finish of a job asks: what was opened, why less than is likely was, and what it measured or fitted."""

from collections.abc import Collection

from builds.readings.models.reading import Reading
from builds.steps.engine.by_words import job_said
from builds.steps.engine.opened import asks_what_was_opened, opens_nothing_of
from builds.steps.engine.said_less import LessSaid, OnRecord, missed
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


def on_record(job: Job) -> OnRecord:
    """Of its car, but for what was taken with the job itself; two queries."""
    taken = Reading.objects.on(job.vehicle).standing().exclude(last_of=job).order_by()
    kinds = taken.values_list("kind", "own__follows").distinct()
    joints = job.vehicle.joints.filter(retired_at=None, marks__isnull=False).distinct()
    opened_by = joints.values_list("opened_by", flat=True)
    return OnRecord(frozenset(kind or follows for kind, follows in kinds), tuple(map(frozenset, opened_by)))


def left_unsaid(job: Job, kinds: Collection[str]) -> tuple[str, ...]:
    """Of what is said or likely of it those kinds by which something on record goes void, and which these leave out.

    What its words said beside what was ticked, and whatever was taken off it, counts beside what stands there.
    """
    off = {*job.kinds, *job.not_opened} - {*kinds}
    return missed(off, kinds, on_record(job)) if off else ()


def less_said(job: Job, kinds: Collection[str]) -> LessSaid:
    """What a finish that says that (kinds) was opened says less than nobody has given a reason for yet."""
    less, given = left_unsaid(job, kinds), bool(job.nothing_because)
    return LessSaid(
        _nothing(job, kinds),
        tuple(kind for kind in less if not (given and kind in job.not_opened)),
        () if given else tuple(job.not_touched),
    )


def _nothing(job: Job, kinds: Collection[str]) -> bool:
    """Whether a finish that says that was opened says that nothing of its systems was.

    What stood there before anybody began is not said by the finish.
    """
    by_finish = job.kinds_likely or not kinds or set(kinds) != set(job.kinds)
    by_hand = job.kinds_likely or not _told(job)
    # Of which nobody said what it touches may have touched anything.
    unsaid = unread(job) or not (job.systems or job.kinds)
    return by_finish and by_hand and (unsaid or for_safety(job)) and opens_nothing_of(job.systems, kinds)


def has_more_to_say(job: Job, *, wants_parts: bool) -> bool:
    """Whether its finish is drawn as a form: it asks, takes readings, wants parts, or was said less of."""
    return wants_parts or bool(job.measures or job.not_opened or job.not_touched) or asks(job)
