"""Look through a sheet that is on its way to the shelf, or write it; its page starts this."""

from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from garage import clock
from parts.actions import batches
from parts.models import Batch


class Command(BaseCommand):
    help = "Work on a sheet that its page has noted."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("batch", type=int, help="its number")

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            batches.run(options["batch"], lambda: clock.now())
        except Batch.DoesNotExist:
            raise CommandError(f"No sheet {options['batch']} is waiting.") from None
