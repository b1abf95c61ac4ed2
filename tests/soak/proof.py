"""`python -m tests.soak.proof`: reads what was answered from its input, looks into the database, says what is wrong."""

import json
import sys
from collections import Counter
from collections.abc import Iterator
from typing import Any

Told = list[dict[str, Any]]


def main() -> None:
    import django

    django.setup()
    asked = json.load(sys.stdin)
    print(json.dumps({"found": found(asked["told"]), "wrong": list(wrong(asked["told"], asked["place"]))}))


def rows_by_mark() -> dict[str, Counter[str]]:
    """By kind of act, how many rows carry each mark."""
    from builds.readings.models.reading import Reading
    from builds.scrutineering.models.check import CheckLog
    from builds.work.models.comment import JobComment
    from builds.work.models.job import Job
    from builds.work.models.span import Span
    from garage.models import Photo
    from parts.models import Move

    def counted(rows: Any, name: str) -> Counter[str]:
        return Counter(str(mark) for mark in rows.values_list(name, flat=True))

    jobs = counted(Job.objects.all(), "title")
    return {
        "move": counted(Move.objects.exclude(why=""), "why"),
        "comment": counted(JobComment.objects.all(), "text"),
        "reading": counted(Reading.objects.exclude(note=""), "note"),
        "photo": counted(Photo.objects.exclude(caption=""), "caption"),
        "tick": counted(CheckLog.objects.all(), "key"),
        "job": jobs,
        "note": jobs,
        "start": counted(Span.objects.filter(state="in_hand"), "job_id"),
        "stop": counted(Span.objects.filter(state="in_hand").exclude(until_at=None), "job_id"),
    }


def told_by_kind(told: Told) -> dict[str, Counter[str]]:
    kinds: dict[str, Counter[str]] = {}
    for act in told:
        kinds.setdefault(act["kind"], Counter())[act["mark"]] += 1
    return kinds


def found(told: Told) -> dict[str, list[int]]:
    """By kind of act: how many were answered as done, how many of those are there, how many once too often."""
    rows = rows_by_mark()
    return {
        kind: [
            marks.total(),
            sum(min(rows[kind][mark], many) for mark, many in marks.items()),
            sum(max(0, rows[kind][mark] - many) for mark, many in marks.items()),
        ]
        for kind, marks in sorted(told_by_kind(told).items())
    }


def wrong(told: Told, place: dict[str, Any]) -> Iterator[str]:
    yield from not_answered_and_there(told)
    yield from receipts(told)
    yield from ledger(told, place)
    yield from whole()
    yield from photos()


def not_answered_and_there(told: Told) -> Iterator[str]:
    """What nobody was told is done, and is there all the same: every act was sent until it was answered."""
    answered = told_by_kind(told)
    for kind, rows in rows_by_mark().items():
        if kind in ("start", "stop", "note", "tick"):
            continue
        for mark in rows:
            if mark.startswith("soak ") and mark not in answered.get(kind, {}) and not mark.endswith("chafed"):
                yield f"{kind} {mark} is there, and was refused"


def receipts(told: Told) -> Iterator[str]:
    """One of each key, and one line of the journal for each."""
    from garage.models import JournalLine, Receipt

    kept = {(person, str(key)) for person, key in Receipt.objects.values_list("person_id", "key")}
    for act in told:
        if (act["person"], act["key"]) not in kept:
            yield f"no receipt of {act['kind']} {act['mark']}"
    people = {act["person"] for act in told}
    lines = JournalLine.objects.filter(member__person__in=people).exclude(act="paddock_write").count()
    forms = sum(act["kind"] not in ("tick", "note") for act in told)  # a tap that stands against another has one too
    if lines != forms:
        yield f"{lines} lines in the journal for {forms} forms"


def ledger(told: Told, place: dict[str, Any]) -> Iterator[str]:
    """Each balance is the sum of its moves, added up here; and of the soak's parts, of what was answered."""
    from parts.models import Balance, Move

    sums: Counter[tuple[int, int]] = Counter()
    for part, source, target, quantity in Move.objects.values_list("part_id", "source_id", "target_id", "quantity"):
        sums[part, target] += quantity
        sums[part, source] -= quantity
    for part, where, quantity in Balance.objects.values_list("part_id", "place_id", "quantity"):
        if quantity != sums.pop((part, where), 0):
            yield f"the balance of part {part} at {where} is not the sum of its moves"
    if any(sums.values()):
        yield "moves without a balance"
    on_bench: Counter[int] = Counter()
    for act in told:
        if act["kind"] == "move" and act["verb"] != "receive":
            on_bench[act["part"]] += act["quantity"] if act["verb"] == "pull" else -act["quantity"]
    for part in place["parts"]:
        held = Balance.objects.filter(part=part, place=place["bench"]).values_list("quantity", flat=True).first() or 0
        if held != on_bench[part]:
            yield f"{held} of part {part} on the bench, and {on_bench[part]} were carried there"


def whole() -> Iterator[str]:
    """What the database says of itself."""
    from django.core.management import CommandError, call_command
    from django.db import connection

    try:
        call_command("check_ledger", stdout=sys.stderr)
    except (CommandError, SystemExit) as error:
        yield f"check_ledger: {error}"
    with connection.cursor() as cursor:
        if connection.vendor == "sqlite":
            cursor.execute("PRAGMA integrity_check")
            said = [row[0] for row in cursor.fetchall()]
            cursor.execute("PRAGMA foreign_key_check")
            said += [f"no row for {row}" for row in cursor.fetchall()]
            yield from (line for line in said if line != "ok")
        else:
            cursor.execute("CREATE EXTENSION IF NOT EXISTS amcheck")
            cursor.execute(
                "SELECT count(*) FROM pg_index i JOIN pg_class c ON c.oid = i.indexrelid"
                " JOIN pg_am a ON a.oid = c.relam JOIN pg_namespace n ON n.oid = c.relnamespace,"
                " LATERAL (SELECT bt_index_parent_check(c.oid, true)) looked"
                " WHERE a.amname = 'btree' AND n.nspname = 'public' AND i.indisvalid"
            )


def photos() -> Iterator[str]:
    """Each has its files, whole; files that no photo names, after a kill, are younger than what is swept."""
    from PIL import Image

    from garage import photo_files
    from garage.engine.picture_sizes import SIZES
    from garage.models import Photo

    for name in Photo.objects.values_list("name", flat=True):
        for size in SIZES:
            file = photo_files.path(name, size)
            try:
                with Image.open(file) as image:
                    image.load()
            except OSError as error:
                yield f"photo {name}: {error}"


if __name__ == "__main__":
    main()
