"""“I have one”: said by somebody who read on a shared page what is sought."""

from django.db import models

from builds.work.models.need import Need
from garage.models import Share
from garage.models.bounds import text_within
from garage.models.scoped import ScopedQuerySet


class PartOfferQuerySet(ScopedQuerySet):
    garage_path = "share__garage"
    owner_only = True


class PartOffer(models.Model):
    """`key` is that of the button, so that a second tap is none; `seen_at` when the owner put it aside."""

    need = models.ForeignKey(Need, models.CASCADE, related_name="offers")
    share = models.ForeignKey(Share, models.CASCADE, related_name="offers")
    name = models.CharField(max_length=60)
    line = models.CharField(max_length=200)
    key = models.CharField(max_length=40)
    said_at = models.DateTimeField()
    seen_at = models.DateTimeField(null=True, blank=True)

    objects = PartOfferQuerySet.as_manager()

    class Meta:
        ordering = ["said_at", "pk"]
        constraints = [
            models.UniqueConstraint(fields=["share", "key"], name="partoffer_once"),
            text_within("partoffer", "name", 60, least=1),
            text_within("partoffer", "line", 200, least=1),
            text_within("partoffer", "key", 40, least=1),
        ]
