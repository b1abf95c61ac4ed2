"""A spreadsheet that is being brought to the shelf: looked through first, then written at once."""

from datetime import datetime, timedelta
from typing import Self

from django.db import models
from django.db.models import Q

from garage.models import Garage, Membership
from garage.models.bounds import number_within, one_of, text_within
from garage.models.scoped import ScopedQuerySet

OPEN = ["columns", "checking", "checked", "writing"]
# No slice takes so long; writing tells nothing until it is over, and waits for other writers.
LONGEST = {"checking": timedelta(minutes=1), "writing": timedelta(minutes=3)}


class BatchQuerySet(ScopedQuerySet):
    owner_only = True

    def open(self) -> Self:
        """Neither written nor left."""
        return self.filter(state__in=OPEN)


class Batch(models.Model):
    """`columns` says in which position of `headings` each column of the book is.

    `turn` counts the passes over the rows: a pass that finds another number stops.
    """

    class State(models.TextChoices):
        COLUMNS = "columns", "its columns are to be named"
        CHECKING = "checking", "being looked through"
        CHECKED = "checked", "looked through"
        WRITING = "writing", "being written to the shelf"
        DONE = "done", "on the shelf"
        LEFT = "left", "left"

    garage = models.ForeignKey(Garage, models.CASCADE, related_name="batches")
    by = models.ForeignKey(Membership, models.PROTECT, related_name="+")
    file_name = models.CharField(max_length=120)
    state = models.CharField(max_length=10, choices=State.choices, default=State.COLUMNS)
    headings = models.JSONField(default=list)
    columns = models.JSONField(default=dict)
    total = models.PositiveIntegerField()
    done = models.PositiveIntegerField(default=0)
    tally = models.JSONField(default=dict)
    note = models.CharField(max_length=200, blank=True)
    turn = models.PositiveIntegerField(default=0)
    made_at = models.DateTimeField()
    seen_at = models.DateTimeField()

    objects = BatchQuerySet.as_manager()

    class Meta:
        ordering = ["-pk"]
        constraints = [
            models.UniqueConstraint(fields=["garage"], condition=Q(state__in=OPEN), name="batch_one_at_a_time"),
            text_within("batch", "file_name", 120, least=1),
            text_within("batch", "note", 200),
            number_within("batch", "total", 0, 20_000),
            number_within("batch", "done", 0, 20_000),
            one_of("batch", "state", [*OPEN, "done", "left"]),
        ]

    def __str__(self) -> str:
        return self.file_name

    def silent(self, at: datetime) -> bool:
        """Whether the process that worked on it is gone."""
        longest = LONGEST.get(self.state)
        return longest is not None and at - self.seen_at > longest


class BatchRowQuerySet(ScopedQuerySet):
    garage_path = "batch__garage"
    owner_only = True

    def of(self, batch: Batch) -> Self:
        return self.filter(batch=batch).order_by("line")

    def bad(self) -> Self:
        return self.filter(kind="bad")

    def sample(self, width: int) -> list[str]:
        """The first thing below each heading, in the first rows."""
        firsts = [""] * width
        for cells in self.values_list("cells", flat=True)[:5]:
            firsts = [first or cell for first, cell in zip(firsts, cells, strict=True)]
        return firsts


class BatchRow(models.Model):
    """One row of the file; `kind` is its verdict, `group` the same for rows of one part."""

    batch = models.ForeignKey(Batch, models.CASCADE, related_name="rows")
    line = models.PositiveIntegerField()
    cells = models.JSONField()
    kind = models.CharField(max_length=10, blank=True)
    group = models.CharField(max_length=300, blank=True)
    problems = models.JSONField(default=list)
    changes = models.JSONField(default=list)

    objects = BatchRowQuerySet.as_manager()

    class Meta:
        ordering = ["line"]
        indexes = [
            models.Index(fields=["batch", "kind", "line"], name="batchrow_by_kind"),
            models.Index(fields=["batch", "group"], name="batchrow_by_group"),
        ]
        constraints = [
            models.UniqueConstraint(fields=["batch", "line"], name="batchrow_once"),
            one_of("batchrow", "kind", ["", "new", "changes", "same", "bad"]),
            text_within("batchrow", "group", 300),
        ]

    def __str__(self) -> str:
        return f"row {self.line}"
