"""The pack list of an event as its page shows it, section by section."""

from collections import defaultdict
from dataclasses import dataclass
from datetime import datetime

from builds.packing.engine.pack_states import LABELS, PackState
from builds.packing.engine.packing import SECTIONS
from builds.packing.facts import entries_of
from builds.packing.models import PackItem, PackList
from garage.models import Event
from parts.models import Balance

LINES_OPEN = 9  # so many fit on a phone below the head of the list


@dataclass(frozen=True)
class PackRow:
    """A line as it is shown and printed: a box, how much, what, where it lies, why."""

    pk: int
    what: str
    amount: str
    why: str
    car: str
    state: str
    state_words: str
    who: str
    at: datetime | None
    own: bool
    where: str

    @property
    def packed(self) -> bool:
        return self.state == PackState.PACKED


@dataclass(frozen=True)
class PackSection:
    slug: str
    title: str
    rows: tuple[PackRow, ...]

    @property
    def done(self) -> int:
        return sum(line.packed for line in self.rows)


@dataclass(frozen=True)
class PackView:
    """The list of an event; `left` are the lines that stay here. `of` counts what is wanted."""

    event: Event
    packlist: PackList | None
    cars: tuple[str, ...]
    sections: tuple[PackSection, ...]
    left: tuple[PackRow, ...]
    done: int
    of: int

    @property
    def now(self) -> PackSection | None:
        """The section that lies open: the first with something to pack, unless it is a long one."""
        now = next((section for section in self.sections if section.done < len(section.rows)), None)
        return now if now and len(now.rows) <= LINES_OPEN else None


def pack_view(event: Event) -> PackView:
    """The list as it stands, section by section; a fixed number of queries."""
    packlist = PackList.objects.in_garage(event.garage_id).filter(event=event).first()
    items = PackItem.objects.filter(packlist=packlist).select_related("vehicle", "by", "by__person")
    packed = list(items) if packlist else []
    where = _where([item.part_id for item in packed if item.part_id])
    shown = {item.pk: _row(item, where) for item in packed}
    sections = tuple(
        PackSection(slug, title, tuple(shown[item.pk] for item in listed))
        for slug, title in SECTIONS.items()
        if (listed := [item for item in packed if item.section == slug and item.state != PackState.LEFT])
    )
    return PackView(
        event,
        packlist,
        tuple(entry.vehicle.name for entry in entries_of(event)),
        sections,
        tuple(shown[item.pk] for item in packed if item.state == PackState.LEFT),
        sum(section.done for section in sections),
        sum(len(section.rows) for section in sections),
    )


def _where(parts: list[int]) -> dict[int, str]:
    """Of each part (pk) the stores in which it lies, in words; one query."""
    stores: dict[int, list[str]] = defaultdict(list)
    rows = Balance.objects.stored().filter(part__in=parts)
    for part, place in rows.order_by("place__walk_order", "place__name").values_list("part_id", "place__name"):
        stores[part].append(place)
    return {part: ", ".join(places) for part, places in stores.items()}


def _row(item: PackItem, where: dict[int, str]) -> PackRow:
    return PackRow(
        item.pk,
        item.what,
        item.amount,
        item.why,
        item.vehicle.name if item.vehicle else "",
        item.state,
        LABELS[PackState(item.state)],
        item.by.name if item.by else "",
        item.at,
        not item.key,
        where.get(item.part_id or 0, ""),
    )
