"""Prove that every balance is the sum of its moves; with --rebuild write them anew first."""

from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from garage import clock
from garage.actions.refused import Refused
from parts.actions.snapshot import faults, rebuild
from parts.models import Move


class Command(BaseCommand):
    help = __doc__

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--rebuild", action="store_true", help="write the balances anew")

    def handle(self, *args: Any, rebuild: bool, **options: Any) -> None:
        if rebuild:
            self._rebuild()
        wrong = faults()
        for part, place, said, true in wrong:
            self.stdout.write(f"{part} at {place}: the balance says {said}, the moves {true}.")
        if wrong:
            raise CommandError(f"{len(wrong)} balances are not the sum of their moves: --rebuild.")
        self.stdout.write(f"Every balance is the sum of its moves: {Move.objects.count()} moves.")

    def _rebuild(self) -> None:
        try:
            self.stdout.write(f"{rebuild(at=clock.now())} balances are written anew.")
        except Refused as refused:
            raise CommandError(str(refused)) from refused
