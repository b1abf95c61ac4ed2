"""Doing to the garage what a remedy or a trial says."""

from collections.abc import Iterable
from datetime import datetime

from django.db import transaction

from builds.remedies.deeds.deed import Deed
from builds.remedies.facts.deed_rows import DeedRows
from garage.actions.refused import Refused
from garage.models import Membership

GONE = "Something that this names is not there any more: look again."


@transaction.atomic
def do(deeds: Iterable[Deed], *, by: Membership, at: datetime) -> None:
    """All of them or none. Raises Refused for what cannot be done; who may is not asked here."""
    rows = DeedRows(by.garage)
    for deed in deeds:
        try:
            deed.do(rows, by=by, at=at)
        except KeyError as error:
            raise Refused(GONE) from error
