"""A person erased from a garage: what is his own goes, what he did stays in the books, by somebody who left."""

from datetime import datetime

from django.apps import apps
from django.contrib.sessions.models import Session
from django.db import transaction
from django.dispatch import Signal

from garage.actions import people
from garage.engine.open_files.person import GOES, NOBODY
from garage.models import Membership, Person

# In the transaction that erases, with `member`, the `name` that he had, and `nobody` in its place: for whoever keeps
# names beside rows. Whoever erases knows nobody who listens; what fails there undoes it all.
erased = Signal()


@transaction.atomic
def erase(member: Membership, *, by: Membership, at: datetime) -> None:
    """Raises Refused where he is the last owner. In another garage he stays who he is.

    The membership stays, since moves and signatures name it and are never changed: it leads to another person, who
    is nobody.
    """
    was = member.person
    devices = list(was.devices.values_list("session_key", flat=True))  # which leaving the garage forgets
    if member.left_at is None:
        people.remove(member, at=at)
    for model in apps.get_models(include_auto_created=True):
        if column := GOES.get(model._meta.db_table):
            model._base_manager.filter(**{column: member.pk}).delete()
    member.person = Person.objects.create_user(name=NOBODY, is_active=False)
    member.works = member.may_sign = False
    member.erased_at, member.erased_by = at, by
    member.save()
    erased.send(Membership, member=member, name=was.name, nobody=NOBODY)
    if not Membership.objects.of(was).exists():
        Session.objects.filter(session_key__in=devices).delete()
        was.delete()
