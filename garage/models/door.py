"""The door: one-time sign-in links and counted tries."""

from datetime import datetime
from typing import Self

from django.db import models

from garage.models.bounds import text_within
from garage.models.person import Person


class SignInLinkQuerySet(models.QuerySet["SignInLink"]):
    def of(self, person: Person) -> Self:
        return self.filter(person=person)

    def unused(self) -> Self:
        return self.filter(used_at=None)

    def usable(self, now: datetime) -> Self:
        return self.filter(used_at=None, expires_at__gt=now, person__is_active=True)


class SignInLink(models.Model):
    person = models.ForeignKey(Person, models.CASCADE, related_name="sign_in_links")
    digest = models.CharField(max_length=64, unique=True)
    expires_at = models.DateTimeField()
    used_at = models.DateTimeField(null=True, blank=True)

    objects = SignInLinkQuerySet.as_manager()

    class Meta:
        constraints = [text_within("signinlink", "digest", 64, least=64)]


class TriesQuerySet(models.QuerySet["Tries"]):
    def of(self, what: str, key: str) -> Self:
        return self.filter(what=what, key=key)

    def one_less(self) -> None:
        self.filter(count__gt=0).update(count=models.F("count") - 1)


class Tries(models.Model):
    """How often something was tried: in the database, so that every worker counts alike."""

    what = models.CharField(max_length=20)
    key = models.CharField(max_length=64)
    count = models.PositiveIntegerField(default=0)
    since = models.DateTimeField()

    objects = TriesQuerySet.as_manager()

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["what", "key"], name="tries_once"),
            text_within("tries", "what", 20, least=1),
            text_within("tries", "key", 64, least=1),
        ]
