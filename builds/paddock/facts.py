"""How lines of the event's day stand, as the meeting of two writes takes it."""

from builds.joints.models import Joint
from builds.packing.engine.pack_states import LABELS as PACKED
from builds.packing.engine.pack_states import PackState
from builds.packing.models import PackItem
from builds.paddock.engine import ItemStanding
from builds.scrutineering.engine.check_states import LABELS as CHECKED
from builds.scrutineering.engine.check_states import CheckState
from builds.scrutineering.models.check import CheckItem
from garage.clock import clock_words


def _by(row: CheckItem | PackItem) -> tuple[str, str]:
    return (str(row.by) if row.by else "", clock_words(row.at, row.at) if row.at else "")


def check_standing(item: CheckItem) -> ItemStanding:
    return ItemStanding(item.log.count(), item.state, *_by(item))


def pack_standing(item: PackItem) -> ItemStanding:
    return ItemStanding(item.log.count(), item.state, *_by(item))


def joint_standing(joint: Joint) -> ItemStanding:
    """Every mark and every signature is a write; its state is that of the last one."""
    last = joint.marks.select_related("by__person").order_by("at", "pk").last()
    if last is None:
        return ItemStanding(0, "open")
    state = "signed" if last.signs_id else "marked"
    return ItemStanding(joint.marks.count(), state, str(last.by), clock_words(last.at, last.at))


def stands_words(row: CheckItem | PackItem, void: str = "") -> str:
    """`ticked, Tove 09:10`, or why a tick has to be made again."""
    label = CHECKED[CheckState(row.state)] if isinstance(row, CheckItem) else PACKED[PackState(row.state)]
    if void:
        return f"tick again: {void}"
    who, when = _by(row)
    note = f": {row.note}" if isinstance(row, CheckItem) and row.note else ""
    return f"{label}{f', {who} {when}' if who else ''}{note}"
