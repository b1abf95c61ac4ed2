"""How lines of the event's day stand, as the meeting of two writes takes it."""

from builds.joints.models import Joint
from builds.packing.models import PackItem
from builds.paddock.engine import ItemStanding
from builds.scrutineering.models.check import CheckItem
from garage.clock import dated_words


def last_hand(item: CheckItem | PackItem) -> tuple[str, str]:
    """Who wrote to it last, and when, in words; empty while nobody did."""
    return (str(item.by) if item.by else "", dated_words(item.at) if item.at else "")


def item_standing(item: CheckItem | PackItem) -> ItemStanding:
    return ItemStanding(item.log.count(), item.state, *last_hand(item))


def joint_standing(joint: Joint) -> ItemStanding:
    """Every mark and every signature is a write; its state is that of the last one."""
    last = joint.marks.select_related("by__person").order_by("at", "pk").last()
    if last is None:
        return ItemStanding(0, "open")
    state = "signed" if last.signs_id else "marked"
    return ItemStanding(joint.marks.count(), state, str(last.by), dated_words(last.at), last.typed)
