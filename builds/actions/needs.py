"""What a job must get before it can be done: asked for, expected, there."""

from datetime import date, datetime

from django.db import transaction

from builds.models import Job, Need
from builds.models.states import OPEN_STATES
from garage.actions.refused import Refused


@transaction.atomic
def add(
    job: Job,
    *,
    at: datetime,
    what: str,
    quantity: int = 1,
    supplier: str = "",
    expected_on: date | None = None,
) -> Need:
    """The job waits for it from the day it is expected; without a day it waits for nothing."""
    if job.state not in OPEN_STATES:
        raise Refused(f"{job} is {job.get_state_display()}: open it again first.")
    return Need.objects.create(
        job=job,
        what=what,
        quantity=quantity,
        supplier=supplier,
        expected_on=expected_on,
        asked_at=at,
    )


@transaction.atomic
def change(
    need: Need, *, what: str, quantity: int, supplier: str, expected_on: date | None
) -> None:
    need.what, need.quantity, need.supplier = what, quantity, supplier
    need.expected_on = expected_on
    need.save(update_fields=["what", "quantity", "supplier", "expected_on"])


def got(need: Need, *, at: datetime) -> None:
    """It is there; what was there before keeps its moment."""
    Need.objects.filter(pk=need.pk, got_at=None).update(got_at=at)


def not_here(need: Need) -> None:
    """It turned out to be missing after all."""
    Need.objects.filter(pk=need.pk).update(got_at=None)


def remove(need: Need) -> None:
    Need.objects.filter(pk=need.pk).delete()
