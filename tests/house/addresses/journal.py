"""The address of the journal, and those of comments and news."""

from builds.steps.actions import comments
from tests.factories import NOW, JobFactory, VehicleFactory

# name: what its address names, whom it serves, and whether it is read, drawn and sent, or sent.
ADDRESSES: dict[str, tuple[str, str, str]] = {
    "journal_list": ("", "WORKS_OWN", "read"),
    "news_edit": ("", "READS_OWN", "form"),
    "news_stop": ("token", "GONE", "door"),
    "comment_add": ("job", "WORKS", "form"),
    "comment_delete": ("comment", "ARRANGES", "send"),
}


def rows(cast):
    job = JobFactory(vehicle=VehicleFactory(garage=cast.garage), made_by=cast.owner)
    return {"comment": comments.comment(job, "It squeaks", by=cast.owner, at=NOW).pk}
