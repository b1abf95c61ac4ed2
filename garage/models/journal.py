"""The journal: who did what, when and on which kind of device; written once, never changed, never deleted."""

from datetime import datetime
from typing import Any, NoReturn, Self

from django.db import models

from garage.engine.devices import KINDS
from garage.engine.journal import MOST_SAID
from garage.models.bounds import one_of, text_within
from garage.models.garage import Garage
from garage.models.membership import Membership
from garage.models.written_once import WrittenOnce, WrittenOnceQuerySet


def _refuse(*args: Any, **kwargs: Any) -> NoReturn:
    raise TypeError("What was done stays in the journal.")


class JournalLineQuerySet(WrittenOnceQuerySet):
    delete = _refuse

    def by(self, member: Membership) -> Self:
        return self.filter(member=member)

    def on(self, device: str) -> Self:
        return self.filter(device=device)

    def free_of_costs(self) -> Self:
        """Without what tells of money, which is the owner's to see."""
        return self.exclude(act__startswith="money_")

    def within(self, since: datetime, until: datetime) -> Self:
        return self.filter(at__gte=since, at__lt=until)

    def about(self, *things: tuple[str, Any]) -> Self:
        """Of any of these things: each a kind, such as `jobs`, with one key or a query of keys."""
        wanted = models.Q()
        for kind, keys in things:
            wanted |= models.Q(kind=kind, of__in=keys)
        return self.filter(pk__in=JournalTie.objects.filter(wanted).values("line"))


class JournalLine(WrittenOnce):
    """`act` is the name of the address that was written to; a `guest` came by a link.

    `said` is what was answered, with the membership of each person that it names, as `{people-12}`.
    """

    garage = models.ForeignKey(Garage, models.CASCADE, related_name="journal")
    member = models.ForeignKey(Membership, models.PROTECT, null=True, related_name="journal")
    guest = models.CharField(max_length=60, blank=True)
    at = models.DateTimeField()
    device = models.CharField(max_length=10, default="unknown")
    act = models.CharField(max_length=40)
    said = models.CharField(max_length=MOST_SAID, blank=True)

    objects = JournalLineQuerySet.as_manager()

    class Meta:
        ordering = ["-at", "-pk"]
        indexes = [models.Index(fields=["garage", "-at"], name="journal_by_day")]
        constraints = [
            one_of("journalline", "device", KINDS),
            text_within("journalline", "guest", 60),
            text_within("journalline", "act", 40, least=1),
            text_within("journalline", "said", MOST_SAID),
        ]

    def __str__(self) -> str:
        return f"{self.member or self.guest}: {self.act}"

    def delete(self, *args: Any, **kwargs: Any) -> NoReturn:
        _refuse()


class JournalTie(models.Model):
    """What a line is about: the first word of the thing's address (`jobs`), and its key."""

    line = models.ForeignKey(JournalLine, models.CASCADE, related_name="ties")
    kind = models.CharField(max_length=20)
    of = models.PositiveBigIntegerField()

    class Meta:
        ordering = ["pk"]
        indexes = [models.Index(fields=["kind", "of"], name="journal_by_thing")]
        constraints = [text_within("journaltie", "kind", 20, least=1)]
