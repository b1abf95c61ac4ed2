"""Rows of a log: written once and never changed, since what a state comes to rests on them."""

from typing import Any, NoReturn

from django.db import models

from garage.models.scoped import ScopedQuerySet


def _refuse(*args: Any, **kwargs: Any) -> NoReturn:
    raise TypeError("A row of a log is never changed: a mistake is answered by another row.")


class WrittenOnceQuerySet(ScopedQuerySet):
    update = update_or_create = bulk_update = _refuse
    update.alters_data = True


class WrittenOnce(models.Model):
    """The base of a log's rows; they go with what they are about, and in no other way change."""

    objects = WrittenOnceQuerySet.as_manager()

    class Meta:
        abstract = True

    def save(self, *args: Any, **kwargs: Any) -> None:
        if self.pk is not None:
            _refuse()
        super().save(*args, **kwargs)
