"""A sheet on its way to the shelf: taken in, looked through in slices, mended, left."""

import logging
from collections.abc import Callable, Iterable
from datetime import datetime

from django.conf import settings
from django.db import transaction
from django.db.models import Count

from garage.actions.refused import Refused
from garage.background import spawn
from garage.models import Garage, Membership
from parts.actions.batch_write import ShelfChanged, write
from parts.engine.book_verdict import RowVerdict, Seen
from parts.engine.table import SheetTable
from parts.facts.batch import verdicts
from parts.models import Batch, BatchRow

log = logging.getLogger("parts.batches")
SLICE = 500
BROKE_OFF = "It broke off; the log says why. Nothing was written."
Now = Callable[[], datetime]


@transaction.atomic
def take_in(garage: Garage, table: SheetTable, file_name: str, *, by: Membership, at: datetime) -> Batch:
    """Keep the rows of a file. One that was taken in before and not written is left for it."""
    for earlier in Batch.objects.in_garage(garage).open().select_for_update():
        leave(earlier, at=at)
    batch = Batch.objects.create(
        garage=garage, by=by, file_name=file_name[:120] or "a sheet", headings=list(table.headings),
        total=len(table.rows), made_at=at, seen_at=at,
    )  # fmt: skip
    rows = (BatchRow(batch=batch, line=line, cells=list(cells)) for line, cells in table.rows)
    BatchRow.objects.bulk_create(rows, batch_size=2000)
    return batch


@transaction.atomic
def leave(batch: Batch, *, at: datetime) -> None:
    """Stop it, and let its rows go; what is being written now is stopped no more."""
    left = Batch.objects.open().filter(pk=batch.pk)
    if not batch.silent(at):
        left = left.exclude(state=Batch.State.WRITING)
    if not left.update(state=Batch.State.LEFT, seen_at=at):
        raise Refused(f"{batch} is being written to the shelf, or is over.")
    BatchRow.objects.of(batch).delete()


@transaction.atomic
def begin_check(batch: Batch, columns: dict[str, int], *, at: datetime, now: Now) -> None:
    """Look through all rows, from the first; once that is committed. Raises Refused."""
    batch = Batch.objects.select_for_update().get(pk=batch.pk)
    if batch.state not in ("columns", "checked") and not batch.silent(at):
        raise Refused(f"{batch} is {batch.get_state_display()}.")
    batch.columns, batch.state, batch.note = columns, Batch.State.CHECKING, ""
    _begin(batch, at, now)


@transaction.atomic
def begin_write(batch: Batch, *, by: Membership, at: datetime, now: Now) -> None:
    """Write all of it to the shelf, or nothing; once that is committed. Raises Refused."""
    batch = Batch.objects.select_for_update().get(pk=batch.pk)
    if batch.state != Batch.State.CHECKED:
        raise Refused(f"{batch} is {batch.get_state_display()}.")
    bad = BatchRow.objects.of(batch).bad().count()
    if bad:
        rows = "One row is" if bad == 1 else f"{bad} rows are"
        raise Refused(f"{rows} bad: mend them or leave them out first.")
    batch.state, batch.by, batch.note = Batch.State.WRITING, by, ""
    _begin(batch, at, now)


def _begin(batch: Batch, at: datetime, now: Now) -> None:
    batch.seen_at, batch.done, batch.turn = at, 0, batch.turn + 1
    batch.save()
    if settings.PLAN_IN_BACKGROUND:
        transaction.on_commit(lambda: spawn("stock_batch", str(batch.pk)), robust=True)
    else:
        transaction.on_commit(lambda: run(batch.pk, now))


def run(pk: int, now: Now) -> None:
    """Whatever is to be done with it now: look through it, or write it."""
    batch = Batch.objects.open().select_related("garage", "by").get(pk=pk)
    mine = Batch.objects.filter(pk=pk, turn=batch.turn)
    try:
        if batch.state == Batch.State.WRITING:
            _write(batch, now)
        if batch.state == Batch.State.CHECKING:
            check(batch, now)
    except Exception:
        log.exception("batch %s broke off", pk)
        mine.update(state=Batch.State.CHECKED, note=BROKE_OFF, seen_at=now())


def _write(batch: Batch, now: Now) -> None:
    try:
        write(batch, at=now())
    except ShelfChanged:
        note = "The shelf changed meanwhile: look at the rows again. Nothing was written."
        batch.state, batch.note = Batch.State.CHECKING, note
        Batch.objects.filter(pk=batch.pk, turn=batch.turn).update(state=batch.state, note=note, seen_at=now())


def check(batch: Batch, now: Now) -> None:
    """A verdict on every row, slice by slice; it ends early when it was stopped or begun anew."""
    mine = Batch.objects.filter(pk=batch.pk, turn=batch.turn, state=Batch.State.CHECKING)
    seen, done = Seen(), 0
    while True:
        rows = list(BatchRow.objects.of(batch)[done : done + SLICE])
        if not rows:
            break
        judged = verdicts(batch, rows, seen)
        done += len(rows)
        with transaction.atomic():
            if not mine.update(done=done, seen_at=now()):
                return
            keep((line, verdict) for line, _, verdict in judged)
    mine.update(state=Batch.State.CHECKED, tally=tally(batch), total=done, seen_at=now())


def keep(judged: Iterable[tuple[BatchRow, RowVerdict]]) -> None:
    rows = []
    for line, verdict in judged:
        line.kind, line.group = verdict.kind, verdict.group
        line.problems = [[problem.column, problem.why] for problem in verdict.problems]
        line.changes = list(verdict.changes)
        rows.append(line)
    BatchRow.objects.bulk_create(
        rows,
        update_conflicts=True,
        unique_fields=["id"],
        update_fields=["cells", "kind", "group", "problems", "changes"],
    )


def tally(batch: Batch) -> dict[str, int]:
    counted = BatchRow.objects.of(batch).order_by().values_list("kind").annotate(many=Count("pk"))
    return dict(counted)
