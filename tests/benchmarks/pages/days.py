"""The events of the years: entries, whether the cars ran, scrutineering ticks, pack lists; gear that is no more."""

import uuid
from collections.abc import Iterator
from datetime import timedelta

from builds.packing.models import PackItem, PackList, PackLog
from builds.scrutineering.models.check import CheckItem, CheckList, CheckLog
from builds.work.models.entry_run import EntryRun
from garage.engine.systems import SYSTEMS
from garage.models import Entry, Event, Gear
from tests.benchmarks.pages.base import CARS, Made

EVENTS_A_YEAR, ENTERED, ITEMS, PACKED = 10, 3, 45, 40
GEAR_A_YEAR = 12
HOUR = timedelta(hours=1)


def events(made: Made) -> None:
    moments = made.moments(EVENTS_A_YEAR * made.years)
    rows = Event.objects.bulk_create(
        Event(garage=made.garage, name=f"Pier Sprint {number}", gates_at=at, ends_at=at + 10 * HOUR, created_at=at)
        for number, at in enumerate(moments)
    )
    entries = Entry.objects.bulk_create(
        Entry(event=event, vehicle=made.cars[(number + place) % CARS])
        for number, event in enumerate(rows)
        for place in range(ENTERED)
    )
    EntryRun.objects.bulk_create(EntryRun(entry=entry, at=entry.event.ends_at, by=made.owner) for entry in entries)
    _ticks(made, entries)
    _packs(made, rows)
    Gear.objects.bulk_create(_gear(made))


def _ticks(made: Made, entries: list[Entry]) -> None:
    lists = CheckList.objects.bulk_create(
        CheckList(entry=entry, made_by=made.owner, made_at=entry.event.gates_at - 48 * HOUR) for entry in entries
    )
    systems = list(SYSTEMS)
    items = CheckItem.objects.bulk_create(
        (
            CheckItem(
                checklist=listed, place=place, section="Walk round", text=f"Item {place}", state="ticked",
                systems=[systems[place % len(systems)]], by=made.owner, at=listed.made_at + HOUR,
            )
            for listed in lists
            for place in range(ITEMS)
        ),
        batch_size=500,
    )  # fmt: skip
    CheckLog.objects.bulk_create(
        (CheckLog(item=item, key=uuid.uuid4(), step="tick", by=made.owner, at=item.at, arrived_at=item.at)
         for item in items),
        batch_size=500,
    )  # fmt: skip


def _packs(made: Made, rows: list[Event]) -> None:
    lists = PackList.objects.bulk_create(
        PackList(event=event, made_by=made.owner, made_at=event.gates_at - 48 * HOUR, runs=4) for event in rows
    )
    items = PackItem.objects.bulk_create(
        (
            PackItem(
                packlist=listed, place=place, key=f"thing-{place}", section="tools", what=f"Thing {place}",
                state="packed", by=made.owner, at=listed.made_at + HOUR,
            )
            for listed in lists
            for place in range(PACKED)
        ),
        batch_size=500,
    )  # fmt: skip
    PackLog.objects.bulk_create(
        (PackLog(item=item, key=uuid.uuid4(), step="pack", by=made.owner, at=item.at, arrived_at=item.at)
         for item in items),
        batch_size=500,
    )  # fmt: skip


def _gear(made: Made) -> Iterator[Gear]:
    for number, at in enumerate(made.moments(GEAR_A_YEAR * made.years)):
        yield Gear(
            garage=made.garage, vehicle=made.cars[number % CARS], kind="belts", name=f"Belts {number}", made_at=at,
            retired_at=at + 24 * HOUR, retired_because="worn",
        )  # fmt: skip
