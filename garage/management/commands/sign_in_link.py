"""Print a link that signs one person in, once, within half an hour."""

from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.urls import reverse

from garage import clock
from garage.actions import sign_in
from garage.engine.words import duration_words
from garage.logs import note
from garage.models import Person
from garage.public import public


class Command(BaseCommand):
    help = __doc__

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("who", nargs="?", default="", help="a name or an e-mail")

    def handle(self, *args: Any, who: str, **options: Any) -> None:
        person = self.named(who) if who else sign_in.first_person() or sign_in.keeper()
        if person is None:
            raise CommandError("Nobody here may sign in.")
        token = sign_in.make_link(person, lasts=sign_in.OWN_LINK, at=clock.now())
        note("link made", whose=person.pk, by="command")
        minutes = duration_words(int(sign_in.OWN_LINK.total_seconds() // 60))
        self.stdout.write(
            f"Sign in as {person}, once, within {minutes}:\n  {public(reverse('sign_in_link', args=[token]))}"
        )

    def named(self, who: str) -> Person:
        people = list(Person.objects.active().called(who)[:2])
        if not people:
            raise CommandError(f"Nobody here is called {who}.")
        if len(people) > 1:
            raise CommandError(f"More than one is called {who}: give an e-mail.")
        return people[0]
