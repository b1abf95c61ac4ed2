"""Run one search for a better plan; the plan page starts it."""

from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from builds.plan.actions import searches
from builds.plan.models import Search
from garage import clock


class Command(BaseCommand):
    help = "Run a search that the plan page has noted."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("search", type=int, help="its number")

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            searches.run(options["search"], lambda: clock.now())
        except Search.DoesNotExist:
            raise CommandError(f"No search {options['search']} is waiting to run.") from None
