"""What a password may not be, beyond Django's own rules."""

from django.core.exceptions import ValidationError

from garage.models import Membership, Person

LONGEST = 256


def _plain(words: str) -> str:
    return "".join(letter for letter in words.casefold() if letter.isalnum())


class NotTheGarage:
    """Neither the program's name nor that of a garage the person is in, however spaced."""

    def validate(self, password: str, user: Person | None = None) -> None:
        names = {"witnessmark"}
        if user is not None and user.pk:
            names |= {
                _plain(membership.garage.name)
                for membership in Membership.objects.active().of(user).select_related("garage")
            }
        if _plain(password).strip("0123456789") in names:
            raise ValidationError("A garage's own name is the first thing anybody would try.")

    def get_help_text(self) -> str:
        return "Your password is not the name of your garage."
