"""Comments on a job as its page shows them."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from builds.steps.actions.comments import refuse_take_back
from builds.work.models.comment import JobComment
from garage.clock import clock_words
from garage.models import Membership


@dataclass(frozen=True)
class CommentLine:
    """`mine` where the reader may take it back."""

    pk: int
    who: str
    when: str
    text: str
    mine: bool


def comment_lines(comments: Iterable[JobComment], me: Membership, at: datetime) -> tuple[CommentLine, ...]:
    return tuple(
        CommentLine(one.pk, one.who, clock_words(one.at, at), one.text, refuse_take_back(one, me) is None)
        for one in comments
    )
