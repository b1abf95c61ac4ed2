"""Lines of the journal: what somebody did, written in the transaction that did it."""

from collections.abc import Collection, Iterable
from datetime import datetime

from garage.engine.journal import NOT_KEPT, things_of, without_names
from garage.models import Garage, JournalLine, JournalTie, Membership

MOST_ACT = 40


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
    things = things_of(paths)
    who = {"member": by} if isinstance(by, Membership) else {"guest": by[:60]}
    pk = garage.pk if isinstance(garage, Garage) else garage
    said = without_names(said, _people(pk, things)) if said else ""
    line = JournalLine.objects.create(garage_id=pk, at=at, device=device, act=act[:MOST_ACT], said=said, **who)
    JournalTie.objects.bulk_create(JournalTie(line=line, kind=kind, of=of) for kind, of in things)


def _people(garage: int, things: Collection[tuple[str, int]]) -> list[tuple[int, str]]:
    """By key, those first whom it is about, then those still here."""
    rows = Membership.objects.in_garage(garage).filter(erased_at=None).values_list("pk", "person__name", "left_at")
    known = sorted(rows, key=lambda row: (("people", row[0]) not in things, row[2] is not None))
    return [(key, name) for key, name, _ in known]
