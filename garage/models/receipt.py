"""A receipt: that a drawn button was pressed, what was sent, and what was answered."""

from datetime import datetime
from typing import Self

from django.db import models

from garage.keys import LASTS, SLACK
from garage.models.bounds import text_within
from garage.models.person import Person


class ReceiptQuerySet(models.QuerySet["Receipt"]):
    def stale(self, at: datetime) -> Self:
        """Of buttons too old to be pressed again, with a day to spare."""
        return self.filter(at__lt=at - LASTS - SLACK)


class Receipt(models.Model):
    """Stored in the same transaction as the effect, so a repeat finds the first answer."""

    person = models.ForeignKey(Person, models.CASCADE, related_name="+")
    key = models.UUIDField()
    digest = models.CharField(max_length=64)
    location = models.CharField(max_length=500, blank=True)
    at = models.DateTimeField(auto_now_add=True)

    objects = ReceiptQuerySet.as_manager()

    class Meta:
        indexes = [models.Index(fields=["at"], name="receipt_by_age")]
        constraints = [
            models.UniqueConstraint(fields=["person", "key"], name="receipt_once"),
            text_within("receipt", "digest", 64, least=64),
            text_within("receipt", "location", 500),
        ]
