"""What news somebody wants by mail, and what he was told last."""

from typing import Self

from django.db import models

from garage.models import Membership
from garage.models.scoped import ScopedQuerySet


class NewsWishQuerySet(ScopedQuerySet):
    garage_path = "member__garage"

    def live(self) -> Self:
        """Of those who are still here and can be written to."""
        here = self.filter(member__left_at=None, member__person__is_active=True)
        return here.exclude(member__person__email=None).select_related("member__person", "member__garage")


class NewsWish(models.Model):
    """Nobody has one who did not ask. `told` is how things stood when it was looked last (see the engine)."""

    member = models.OneToOneField(Membership, models.CASCADE, related_name="news_wish")
    evenings = models.BooleanField("my evening moved", default=True)
    points = models.BooleanField("a point waits for me", default=True)
    parts = models.BooleanField("a part came", default=True)
    cars = models.BooleanField("a car became fit or unfit", default=True)
    told = models.JSONField(default=dict, blank=True)
    sent_at = models.DateTimeField(null=True, blank=True)

    objects = NewsWishQuerySet.as_manager()

    def __str__(self) -> str:
        return f"News for {self.member}"
