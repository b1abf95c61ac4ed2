"""Lines of the journal: what somebody did, written in the transaction that did it."""

from collections.abc import Iterable
from datetime import datetime

from garage.engine.journal import NAMES_PEOPLE, NOT_KEPT, things_of
from garage.models import Garage, JournalLine, JournalTie, Membership

MOST_SAID, MOST_ACT = 500, 40


def write(
    garage: Garage | int,
    *,
    by: Membership | str,
    act: str,
    paths: Iterable[str],
    said: str = "",
    device: str = "unknown",
    at: datetime,
) -> None:
    """`by` somebody of the garage, or a guest by the name that he gave; `paths` are addresses of what it is about."""
    if act in NOT_KEPT:
        return
    said = "" if act.startswith(NAMES_PEOPLE) else said
    who = {"member": by} if isinstance(by, Membership) else {"guest": by[:60]}
    pk = garage.pk if isinstance(garage, Garage) else garage
    line = JournalLine.objects.create(
        garage_id=pk, at=at, device=device, act=act[:MOST_ACT], said=said[:MOST_SAID], **who
    )
    JournalTie.objects.bulk_create(JournalTie(line=line, kind=kind, of=of) for kind, of in things_of(paths))
