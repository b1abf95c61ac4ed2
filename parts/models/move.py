"""A move: so much of a part from one place to another. Written once, never changed."""

from collections import defaultdict
from collections.abc import Iterable
from typing import Any, NoReturn, Self

from django.db import models
from django.db.models import F, Q

from garage.models import Membership
from garage.models.bounds import number_within, one_of, text_within
from garage.models.scoped import ScopedQuerySet
from parts.engine.ledger import STORES
from parts.models.part import MOST, Part
from parts.models.place import Place

VERBS = [
    "receive",
    "put",
    "pull",
    "fit",
    "take_off",
    "lend",
    "return",
    "repair",
    "scrap",
    "count",
    "reverse",
]


class LedgerError(Exception):
    """The ledger is append-only: a mistake is undone by a reversing move."""


def _refuse(*args: Any, **kwargs: Any) -> NoReturn:
    raise LedgerError("Moves are never changed or deleted: write the move that reverses one.")


class MoveQuerySet(ScopedQuerySet):
    garage_path = "part__garage"

    update = update_or_create = bulk_update = delete = _refuse  # type: ignore[assignment]
    update.alters_data = delete.alters_data = True  # type: ignore[attr-defined]

    def of(self, part: Part) -> Self:
        return self.filter(part=part)

    def standing(self) -> Self:
        """Neither reversed nor a reversal."""
        return self.filter(reverses=None, reversed_by=None)


class Move(models.Model):
    """`quantity` in the part's smallest unit, always above zero; `reverses` names a mistake."""

    part = models.ForeignKey(Part, models.PROTECT, related_name="moves")
    verb = models.CharField(max_length=10)
    quantity = models.PositiveBigIntegerField()
    source = models.ForeignKey(Place, models.PROTECT, related_name="moves_out")
    target = models.ForeignKey(Place, models.PROTECT, related_name="moves_in")
    by = models.ForeignKey(Membership, models.PROTECT, related_name="+")
    at = models.DateTimeField()
    why = models.CharField(max_length=200, blank=True)
    reverses = models.OneToOneField("self", models.PROTECT, null=True, blank=True, related_name="reversed_by")

    objects = MoveQuerySet.as_manager()

    class Meta:
        ordering = ["-pk"]
        base_manager_name = "objects"
        indexes = [models.Index(fields=["part", "at"], name="move_of_part")]
        constraints = [
            one_of("move", "verb", VERBS),
            number_within("move", "quantity", 1, MOST),
            text_within("move", "why", 200),
            models.CheckConstraint(condition=~Q(source=F("target")), name="move_goes_somewhere"),
        ]

    def __str__(self) -> str:
        return f"{self.verb} {self.quantity} {self.part}"

    def save(self, *args: Any, **kwargs: Any) -> None:
        if self.pk is not None:
            _refuse()
        kwargs["force_insert"] = True
        super().save(*args, **kwargs)

    def delete(self, *args: Any, **kwargs: Any) -> NoReturn:
        _refuse()


class BalanceQuerySet(models.QuerySet["Balance"]):
    def held(self) -> Self:
        """Of which something is left, in a place of the garage's own."""
        return self.filter(outside=False, quantity__gt=0)

    def stored(self) -> Self:
        """What lies in the stores: not on the bench, a car, or with somebody."""
        return self.held().filter(place__kind__in=STORES)

    def by_part(self, parts: Iterable[Part | int]) -> dict[int, list["Balance"]]:
        """What is held of each of these parts (pk), with its place, in walking order; one query."""
        rows = self.held().filter(part__in=parts).select_related("place")
        held: dict[int, list[Balance]] = defaultdict(list)
        for balance in rows.order_by("place__walk_order", "place__name"):
            held[balance.part_id].append(balance)
        return held


class Balance(models.Model):
    """How much of a part is in a place: the sum of its moves, kept so that reading is quick."""

    part = models.ForeignKey(Part, models.CASCADE, related_name="balances")
    place = models.ForeignKey(Place, models.CASCADE, related_name="balances")
    quantity = models.BigIntegerField(default=0)
    outside = models.BooleanField(default=False)

    objects = BalanceQuerySet.as_manager()

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["part", "place"], name="balance_once"),
            models.CheckConstraint(condition=Q(outside=True) | Q(quantity__gte=0), name="balance_not_below_zero"),
        ]
