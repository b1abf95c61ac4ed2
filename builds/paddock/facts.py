"""How lines of the event's day stand, as the meeting of two writes takes it."""

from builds.joints.models import Joint
from builds.packing.models import PackItem
from builds.paddock.engine import ItemStanding
from builds.scrutineering.models.check import CheckItem
from garage.clock import zone


def item_standing(item: CheckItem | PackItem) -> ItemStanding:
    return ItemStanding(item.log.count(), item.state, item.by.name if item.by else "", item.at, zone())


def joint_standing(joint: Joint) -> ItemStanding:
    """Every mark and every signature is a write; its state is that of the last one."""
    last = joint.marks.select_related("by__person").order_by("at", "pk").last()
    if last is None:
        return ItemStanding(0, "open")
    state = "signed" if last.signs_id else "marked"
    return ItemStanding(joint.marks.count(), state, last.by.name, last.at, zone(), last.typed)
