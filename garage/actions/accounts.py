"""One's own way in: e-mail and password."""

from datetime import datetime

from django.db import transaction

from garage.actions import tries
from garage.actions.refused import Refused
from garage.actions.sign_in import HASHING, end_sessions
from garage.engine.tries import PASSWORD_CHANGE
from garage.engine.words import wait_words
from garage.models import Person


def prove(person: Person, password: str, *, at: datetime) -> None:
    """Raise Refused unless this is the person's password; counted, then hashed."""
    counter = (PASSWORD_CHANGE, str(person.pk))
    wait = tries.claim(counter, at=at)
    if wait:
        raise Refused(f"Too many tries: wait {wait_words(wait)}, then try again.")
    with HASHING:
        right = person.check_password(password)
    if not right:
        raise Refused("This is not your password now.")
    tries.forget(counter)


def change_sign_in(person: Person, *, email: str, password: str, at: datetime) -> None:
    """Keep an e-mail and, if there is one, a new password, which ends every session."""
    person.email = email
    if password:
        with HASHING:  # slow, so before the transaction
            person.set_password(password)
    with transaction.atomic():
        person.save(update_fields=["email", "password"])
        if password:
            end_sessions(person, at=at)
