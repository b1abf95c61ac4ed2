"""Comments on a job: written beside its log, taken back by whoever wrote them or the owner."""

from datetime import datetime

from django.db import transaction

from builds.work.models.comment import MOST, JobComment
from builds.work.models.job import Job
from garage import writes
from garage.access import OWNER, refuse_working
from garage.actions import journal, tries
from garage.actions.refused import Refused
from garage.engine.tries import SHARE_SAID
from garage.engine.words import wait_words
from garage.models import Garage, Membership, Share

MOST_OF_GUESTS = 100  # on one job by one link


def comment(job: Job, text: str, *, by: Membership, at: datetime) -> JobComment:
    if not 1 <= len(text) <= MOST:
        raise Refused(f"Write up to {MOST} letters.")
    return JobComment.objects.create(job=job, by=by, text=text, at=at)


def refuse_take_back(comment: JobComment, by: Membership) -> str | None:
    """Whoever wrote it takes it back, the owner anybody's."""
    if by.role == OWNER or (comment.by_id == by.pk and refuse_working(by) is None):
        return None
    return (
        f"Only {comment.who} or the owner can take this back." if comment.by else "Only the owner can take this back."
    )


def take_back(comment: JobComment, *, by: Membership) -> None:
    """That it was written, and by whom it was taken back, stays in the journal. Raises Refused."""
    refusal = refuse_take_back(comment, by)
    if refusal:
        raise Refused(refusal)
    comment.delete()


def comment_as_guest(
    share: Share, job: Job, text: str, *, name: str, key: str, device: str = "unknown", at: datetime
) -> None:
    """Once for each button. Raises Refused."""
    if not share.may_comment:
        raise Refused("Nothing can be said on this page.")
    if JobComment.objects.filter(share=share, key=key).exists():
        return
    wait = tries.claim((SHARE_SAID, share.digest), at=at)
    if wait:
        raise Refused(f"Too many at once: wait {wait_words(wait)}, then try again.")
    with transaction.atomic():
        Garage.objects.select_for_update(no_key=True).get(pk=share.garage_id)
        if share.comments.filter(job=job).count() >= MOST_OF_GUESTS:
            raise Refused("Enough was said of this one: ask the garage directly.")
        said = {"job": job, "guest": name, "text": text, "at": at}
        _, fresh = JobComment.objects.get_or_create(share=share, key=key, defaults=said)
        if fresh:
            told = {"act": "share_comment", "paths": (f"/jobs/{job.pk}/",), "said": text, "device": device}
            journal.write(share.garage_id, by=name, at=at, **told)
            writes.count(share.garage_id, at=at)
