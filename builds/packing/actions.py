"""Pack lists: made and made again, ticked, added to and taken from."""

import uuid
from dataclasses import dataclass
from datetime import datetime

from django.db import transaction
from django.db.models import Max

from builds.packing.engine.pack_states import PACK_STATES, PackState, PackTap, deciding
from builds.packing.engine.packing import PackLine, pack
from builds.packing.facts import cars_to_pack
from builds.packing.models import AMOUNT_MAX, WHAT_MAX, PackItem, PackList, PackLog
from garage.actions.refused import Refused
from garage.models import Event, Membership, Vehicle

MOST = 500
CHANGING = ("place", "section", "vehicle_id", "part_id", "what", "amount", "why")


@dataclass(frozen=True)
class PackTapped:
    """What came of a tap; `again` when its key was known, `counts` when it decides the state."""

    row: PackLog
    item: PackItem
    again: bool = False
    counts: bool = True


@transaction.atomic
def make(event: Event, *, by: Membership, at: datetime) -> PackList:
    """The event's list, made now or again: what was ticked, left or added by hand stays."""
    lines = pack(cars_to_pack(event, at), event.runs)
    packlist, _ = PackList.objects.update_or_create(
        event=event,
        defaults={"runs": event.runs},
        create_defaults={"runs": event.runs, "made_by": by, "made_at": at},
    )
    rows = PackItem.objects.filter(packlist=packlist).exclude(key="")
    there = {item.key: item for item in rows}
    for place, line in enumerate(lines):
        fields = _fields(line, place)
        old = there.pop(line.key, None)
        if old is None:
            PackItem.objects.create(packlist=packlist, key=line.key, **fields)
        elif any(getattr(old, name) != fields[name] for name in CHANGING):
            PackItem.objects.filter(pk=old.pk).update(**fields)
    stale = [item.pk for item in there.values() if item.state == PackState.OPEN]
    PackItem.objects.filter(pk__in=stale).delete()
    return packlist


def _fields(line: PackLine, place: int) -> dict[str, object]:
    return {
        "place": place,
        "section": line.section,
        "vehicle_id": line.car,
        "part_id": line.part,
        "what": line.what[:WHAT_MAX],
        "amount": line.amount[:AMOUNT_MAX],
        "why": line.why[:200],
    }


@transaction.atomic
def take(
    item: PackItem,
    step: str,
    *,
    by: Membership,
    at: datetime,
    key: uuid.UUID,
    arrived: datetime | None = None,
) -> PackTapped:
    """Pack, unpack, leave or want a line; the same key counts once. Raises Refused.

    `at` is the moment of the tap. From a phone that was without signal `arrived` is when it was
    heard of; then nothing is refused, and the last tap by `at` decides.
    """
    row = PackLog.objects.filter(key=key).select_related("item").first()
    if row:
        if row.item_id != item.pk or row.step != step:
            raise Refused("This tap was used already, for something else.")
        return PackTapped(row, row.item, again=True)
    item, heard = PackItem.objects.select_for_update().get(pk=item.pk), arrived or at
    if arrived is None and (wrong := PACK_STATES.refusal(step, item.state)):
        raise Refused(wrong)
    row = PackLog.objects.create(item=item, step=step, by=by, at=min(at, heard), arrived_at=heard, key=key)
    rows = {
        PackTap(line.at, str(line.key), line.step): line
        for line in PackLog.objects.filter(item=item).select_related("by")
    }
    decided = deciding(rows)
    if decided is None:
        raise AssertionError("a line was just written")
    item.state = PACK_STATES.after(decided.step).value
    item.by, item.at = rows[decided].by, decided.at
    item.save(update_fields=["state", "by", "at"])
    return PackTapped(row, item, counts=decided.key == str(row.key))


@transaction.atomic
def add(packlist: PackList, *, what: str, amount: str = "", vehicle: Vehicle | None = None) -> PackItem:
    """A line of one's own, under "Besides"."""
    if vehicle and vehicle.garage_id != packlist.event.garage_id:
        raise Refused("The car must be in the same garage.", "vehicle")
    rows = PackItem.objects.filter(packlist=packlist)
    if rows.count() >= MOST:
        raise Refused(f"{MOST} lines are the most.")
    last = rows.aggregate(last=Max("place"))["last"] or 0
    return PackItem.objects.create(
        packlist=packlist,
        section="own",
        place=min(last + 1, 9999),
        what=what,
        amount=amount,
        vehicle=vehicle,
    )


def remove(item: PackItem) -> None:
    """Take a line of one's own off the list; one that was made is left behind instead."""
    if item.key:
        raise Refused("The list was made with this line: say that it stays here.")
    if item.log.exists():
        raise Refused("It was packed once, and that stays on record: say that it stays here.")
    item.delete()
