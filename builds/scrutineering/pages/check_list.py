"""A scrutineering list as it stands: what wants a look first and why, and what is void."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from itertools import chain, groupby

from builds.scrutineering.engine.check_list import FIRST_RUN, HAS, SCRUTINEERING
from builds.scrutineering.engine.check_states import LABELS, CheckState
from builds.scrutineering.engine.scrutineering import asked_since, in_order, why_behind
from builds.scrutineering.engine.ticks import void_of
from builds.scrutineering.facts.items import fail_jobs
from builds.scrutineering.facts.lacks import lacks_of
from builds.scrutineering.facts.touched import touched_of
from builds.scrutineering.facts.wanted import ListSources
from builds.scrutineering.models.check import CarHas, CheckItem, CheckList
from builds.work.engine.car_work import since
from builds.work.facts.car_works import last_events
from builds.work.models.entry_run import EntryRun
from builds.work.models.job import Job
from builds.work.models.states import OPEN_STATES
from garage.models import Entry

LINES_OPEN = 7  # so many fit on a phone below the head of the list
TITLES = {SCRUTINEERING: "Scrutineering", FIRST_RUN: "After the first session"}


@dataclass(frozen=True)
class CheckRow:
    """An item: `why` it stands first, `void` why its tick is void, `job` that its fail opened.

    `job_open` while that job is still to do, so that the item cannot be ticked as mended.
    """

    item: CheckItem
    why: str
    void: str
    job: Job | None

    @property
    def stands(self) -> bool:
        """Ticked and not touched since, or said not to apply."""
        passed = self.item.state in (CheckState.TICKED, CheckState.LEFT_OUT)
        return passed and not self.void

    @property
    def failed(self) -> bool:
        return self.item.state == CheckState.FAILED

    @property
    def to_tick(self) -> bool:
        return not self.stands and not self.failed

    @property
    def words(self) -> str:
        return "tick again" if self.void else LABELS[CheckState(self.item.state)]

    @property
    def job_open(self) -> bool:
        return self.job is not None and self.job.state in OPEN_STATES


@dataclass(frozen=True)
class CheckSection:
    """`said` is its title as it stands above its rows."""

    title: str
    rows: tuple[CheckRow, ...]
    said: str = ""

    @property
    def many(self) -> bool:
        """Whether more than one can be ticked in one go."""
        return sum(check.to_tick for check in self.rows) > 1

    @property
    def done(self) -> int:
        return sum(check.stands for check in self.rows)


@dataclass(frozen=True)
class CheckListView:
    """One list of an entry: `first` what wants a look before the rest, then section by section."""

    checklist: CheckList
    title: str
    first: tuple[CheckSection, ...]
    sections: tuple[CheckSection, ...]

    @property
    def parts(self) -> tuple[CheckSection, ...]:
        return self.first + self.sections

    @property
    def now(self) -> CheckSection | None:
        """What lies open: the first part that is not done, unless it is a long one."""
        now = next((part for part in self.parts if part.done < len(part.rows)), None)
        return now if now and len(now.rows) <= LINES_OPEN else None

    @property
    def others(self) -> CheckSection:
        """All the other parts as one."""
        others = [part for part in self.parts if part is not self.now]
        return CheckSection("Other sections" if self.now else "Sections", tuple(chain(*(part.rows for part in others))))

    @property
    def rows(self) -> tuple[CheckRow, ...]:
        return tuple(chain(*(part.rows for part in self.parts)))

    @property
    def done(self) -> int:
        return sum(part.done for part in self.parts)

    @property
    def of(self) -> int:
        return len(self.rows)

    @property
    def to_tick(self) -> int:
        return sum(check.to_tick for check in self.rows)

    @property
    def failed(self) -> int:
        return sum(item.failed for item in self.rows)


@dataclass(frozen=True)
class EntryChecks:
    """Every list of an entry, the short one of the first session before the long one; `behind` why the long one is."""

    entry: Entry
    lists: tuple[CheckListView, ...]
    run: EntryRun | None
    has: tuple[str, ...] | None
    behind: str = ""

    @property
    def main(self) -> CheckListView | None:
        return next((view for view in self.lists if view.checklist.kind == SCRUTINEERING), None)


def entry_checks(entry: Entry, at: datetime) -> EntryChecks:
    """As it stands at that moment; the same few queries for any list."""
    lists = list(CheckList.objects.filter(entry=entry))
    items = list(CheckItem.objects.filter(checklist__in=lists).select_related("by", "by__person"))
    car = entry.vehicle
    works = touched_of(car.garage, [car], at)[car.pk]
    lately = since(works, last_events([entry]).get(car.pk))
    lacks, jobs = lacks_of(car.garage, at, {car.pk: entry}).get(car.pk, []), fail_jobs(items)
    views = []
    for checklist in sorted(lists, key=lambda checklist: checklist.kind != FIRST_RUN):
        own = [item for item in items if item.checklist_id == checklist.pk]
        ranked = in_order([item.list_item for item in own], lacks, lately)
        rows = [
            CheckRow(
                own[standing.place],
                "" if checklist.kind == FIRST_RUN else standing.why,
                void_of(own[standing.place], works, entry.event.gates_at, at),
                jobs.get(own[standing.place].pk),
            )
            for standing in ranked
        ]
        views.append(_list_view(checklist, rows))
    tags = CarHas.objects.filter(vehicle=car).values_list("tags", flat=True).first()
    return EntryChecks(
        entry,
        tuple(views),
        EntryRun.objects.filter(entry=entry).first(),
        None if tags is None else tuple(HAS[tag] for tag in HAS if tag in tags),
        _behind(entry, lists, items),
    )


def _behind(entry: Entry, lists: list[CheckList], items: list[CheckItem]) -> str:
    main = next((checklist for checklist in lists if checklist.kind == SCRUTINEERING), None)
    if main is None:
        return ""
    sources, organiser = ListSources(entry.vehicle.garage, [entry.vehicle]), entry.event.organiser
    listed = [item.list_item for item in items if item.checklist_id == main.pk]
    lacks = len(asked_since(sources.items(entry.vehicle_id, organiser), listed))
    return why_behind(main.organiser, sources.organiser(organiser), lacks)


def rows_to_tick(checks: EntryChecks, section: str = "") -> list[CheckRow]:
    """What may be ticked, in all lists or of one section: what stands and what failed is left out."""
    rows = [check for view in checks.lists for check in view.rows if check.to_tick]
    return [check for check in rows if not section or check.item.section == section]


def _list_view(checklist: CheckList, rows: list[CheckRow]) -> CheckListView:
    # One that is ticked keeps its place, so that the page stays where the thumb is.
    first = tuple(check for check in rows if check.failed or check.void or check.why)
    ahead = {check.item.pk for check in first}
    rest = sorted((check for check in rows if check.item.pk not in ahead), key=lambda check: check.item.place)
    return CheckListView(checklist, TITLES[checklist.kind], _parts(first, "First: "), _parts(rest))


def _parts(rows: Iterable[CheckRow], before: str = "") -> tuple[CheckSection, ...]:
    """As they follow each other, section by section."""
    by_section = groupby(rows, key=lambda check: check.item.section)
    return tuple(CheckSection(title, tuple(listed), f"{before}{title}") for title, listed in by_section)
