"""Rows of a sheet mended or left out, and those judged anew that speak of the same part."""

from django.db import transaction

from garage.actions.refused import Refused
from parts.actions.batches import keep, tally
from parts.engine.book_verdict import RowVerdict, Seen
from parts.facts.batch import verdicts
from parts.models import Batch, BatchRow


@transaction.atomic
def mend(row: BatchRow, said: dict[str, str]) -> RowVerdict:
    """The row as it is written now, by column; what is wrong with it still is in the verdict."""
    batch = _held(row)
    for slug, cell in said.items():
        row.cells[batch.columns[slug]] = cell
    row.save(update_fields=["cells"])
    [(_, _, alone)] = verdicts(batch, [row], Seen())
    judged = _judge_groups(batch, {row.group, alone.group}, row)
    batch.tally = tally(batch)
    batch.save(update_fields=["tally"])
    return judged[row.pk]


@transaction.atomic
def leave_out(row: BatchRow) -> None:
    """The row is not brought to the shelf."""
    batch, group = _held(row), row.group
    row.delete()
    _judge_groups(batch, {group})
    batch.tally, batch.total = tally(batch), BatchRow.objects.of(batch).count()
    batch.save(update_fields=["tally", "total"])


def _held(row: BatchRow) -> Batch:
    batch = Batch.objects.select_for_update().get(pk=row.batch_id)
    if batch.state != Batch.State.CHECKED:
        raise Refused(f"{batch} is {batch.get_state_display()}.")
    return batch


def _judge_groups(batch: Batch, groups: set[str], row: BatchRow | None = None) -> dict[int, RowVerdict]:
    """In the order of the file, as the rows of a group must agree with its first."""
    mine = BatchRow.objects.of(batch)
    rows = mine.filter(group__in=groups) | mine.filter(pk=row.pk if row else None)
    judged = verdicts(batch, rows, Seen())
    keep((line, verdict) for line, _, verdict in judged)
    return {line.pk: verdict for line, _, verdict in judged}
