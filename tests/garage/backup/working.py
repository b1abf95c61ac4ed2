"""People at work in a garage: threads that write through the actions of pages until they are told to stop."""

import json
import shutil
import sqlite3
import time
import uuid
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from threading import Event, Thread
from uuid import UUID

from django.db import connection

from builds.scrutineering.actions import checks
from builds.scrutineering.models.check import CheckItem
from builds.work.models.job import Job
from garage.actions import photos
from garage.actions.refill import refill
from garage.actions.refused import Refused
from garage.backup_file import opened
from garage.models import Vehicle, VehiclePhoto
from garage.second_database import second_database
from parts.actions import stock
from parts.actions.places import house_place
from parts.actions.snapshot import proof
from parts.models import Balance, Place
from tests.factories import NOW
from tests.garage.backup.homes import Home, balances_add_up, owner, run
from tests.garage.backup.zips import entries
from tests.pictures import jpeg

BACKUPS = 20


class Shift:
    """What was done, what failed, and how long the longest write took in seconds."""

    def __init__(self) -> None:
        self.done, self.failed, self.longest = Counter(), [], 0.0


def carry(number: int) -> str:
    """Off the shelf and back, and something new every third time."""
    by = owner()
    held = Balance.objects.filter(place__kind="bin", quantity__gte=1, part__single=False, part__one_use=False)
    row = held.select_related("part", "place").order_by("?").first()
    bench, supplier = house_place(by.garage, "bench"), house_place(by.garage, "supplier")
    stock.move(row.part, "pull", 1, row.place, bench, by=by, at=NOW)
    stock.move(row.part, "put", 1, bench, row.place, by=by, at=NOW)
    if number % 3 == 0:
        shelf = Place.objects.filter(kind="shelf").first()
        stock.move(row.part, "receive", 2, supplier, shelf, by=by, at=NOW)
    return "moves"


def tick(number: int) -> str:
    item = CheckItem.objects.order_by("?").first()
    checks.take(item, "tick", by=owner(), at=NOW, key=uuid.uuid4())
    checks.undo(item, by=owner(), at=NOW, key=uuid.uuid4())
    return "ticks"


def snap(number: int) -> str:
    """A photo kept, and every other one deleted again."""
    by = owner()
    photo = photos.add(VehiclePhoto, Vehicle.objects.first(), photos.keep(jpeg()), by=by, at=NOW)
    if number % 2:
        photos.delete(photo, by=by)
    return "photos"


def note(number: int) -> str:
    Job.objects.filter(pk=Job.objects.order_by("?").first().pk).update(note=f"Looked at for the {number}th time")
    return "notes"


@contextmanager
def at_work(*ways: Callable[[int], str]) -> Iterator[Shift]:
    shift, over = Shift(), Event()

    def work(way: Callable[[int], str]) -> None:
        number = 0
        while not over.is_set():
            began, number = time.monotonic(), number + 1
            try:
                shift.done[way(number)] += 1
            except Refused:
                shift.done["refused"] += 1
            except Exception as error:
                shift.failed.append(f"{way.__name__}: {type(error).__name__}: {error}")
            shift.longest = max(shift.longest, time.monotonic() - began)
            over.wait(0.02)  # people are slower still
        connection.close()

    threads = [Thread(target=work, args=[way]) for way in ways or (carry, carry, tick, snap, note)]
    for thread in threads:
        thread.start()
    try:
        yield shift
    finally:
        over.set()
        for thread in threads:
            thread.join()


def looked_into(file: Path) -> tuple[int, list[str]]:
    """The moves of a backup and the photos it lacks, when it is whole: read without any of our own code."""
    held = entries(file)
    told = json.loads(held["manifest.json"])

    def rows(table: str) -> list[dict]:
        names = list(told["tables"][table]["columns"])
        return [dict(zip(names, json.loads(line), strict=True)) for line in held[f"tables/{table}.jsonl"].splitlines()]

    sums = Counter()
    for move in rows("parts_move"):
        sums[move["part_id"], move["target_id"]] += move["quantity"]
        sums[move["part_id"], move["source_id"]] -= move["quantity"]
    said = {(row["part_id"], row["place_id"]): row["quantity"] for row in rows("parts_balance")}
    assert {key: total for key, total in sums.items() if total} == {key: many for key, many in said.items() if many}
    assert {row["item_id"] for row in rows("builds_checklog")} <= {row["id"] for row in rows("builds_checkitem")}
    photos = {UUID(row["name"]).hex for row in rows("garage_photo")}
    assert {row["photo_id"] for row in rows("garage_vehiclephoto")} <= {row["id"] for row in rows("garage_photo")}
    assert {Path(path).name[:32] for path in (*told["photos"], *told["missing_photos"])} == photos
    return told["moves"], told["missing_photos"]


def restored(file: Path, bare: Home, database: Path) -> Path:
    """The rows of a backup put into a database, which SQLite then finds whole."""
    shutil.copy(bare.database, database)
    with file.open("rb") as source, second_database("built", database) as using:
        refill(using, opened(source, free=10**9), prove=proof)
    assert balances_add_up(database)
    with closing(sqlite3.connect(database)) as made:
        assert made.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
        assert made.execute("PRAGMA foreign_key_check").fetchall() == []
    return database


def backups_while_people_work(bare: Home, folder: Path) -> Path:
    """Each is looked into, every tenth restored; the last one, made when they had gone home, is returned."""
    with at_work() as shift:
        for number in range(BACKUPS):
            run("backup", folder / f"{number}.zip")
    run("backup", folder / f"{BACKUPS}.zip")
    assert shift.failed == []
    assert min(shift.done[what] for what in ("moves", "ticks", "photos", "notes")) >= BACKUPS / 4, shift.done
    files = [folder / f"{number}.zip" for number in range(BACKUPS + 1)]
    moves = [looked_into(file)[0] for file in files]
    assert moves == sorted(moves) and moves[0] < moves[BACKUPS // 2] < moves[-1]
    for file in files[::10]:
        database = restored(file, bare, file.with_suffix(".sqlite3"))
    return database
