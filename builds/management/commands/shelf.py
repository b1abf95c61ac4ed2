"""Print what every car is owed, what is short, and what runs low."""

from datetime import datetime
from typing import Any

from django.core.management.base import BaseCommand, CommandParser
from django.utils import timezone

from builds.management.lookups import garages_called
from builds.plan.actions.follow import follow
from builds.plan.engine.words import older_plan_words
from builds.shelf.pages.owed import by_car, owed_lines
from builds.shelf.pages.want_page import load_want_page
from garage import clock
from garage.models import Garage


class Command(BaseCommand):
    help = __doc__

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--garage", help="its name; else every garage")

    def handle(self, *args: Any, garage: str | None, **options: Any) -> None:
        at = clock.now()
        for home in garages_called(garage):
            with timezone.override(home.time_zone):
                if older := older_plan_words(follow(home, at=at)):
                    self.stderr.write(older)
                self.stdout.write(self.style.MIGRATE_HEADING(f"{home}, {timezone.localtime(at):%A %H:%M}"))
                self._owed(home, at)
                self._short(home, at)

    def _owed(self, garage: Garage, at: datetime) -> None:
        lines = owed_lines(garage, at)
        if not lines:
            self.stdout.write("Nothing is owed.")
        for car, owed in by_car(lines):
            self.stdout.write(f"{car} is owed:")
            for line in owed:
                many = f"{line.amount} of " if line.amount else ""
                went = f", for “{line.went_to}” ({line.went_to.vehicle})" if line.went_to else ""
                said = f"{many}{line.part} ({line.job.rank}) since {line.since}"
                self.stdout.write(f"  {said}, now {line.where}{went}")

    def _short(self, garage: Garage, at: datetime) -> None:
        view = load_want_page(garage, at)
        for state, label, rows in view.groups:
            if state == "shelf":
                continue
            self.stdout.write(f"{label}:")
            for want in rows:
                line = want.line
                more = f". {line.behind}" if line.behind else ""
                stands = ", ".join(filter(None, [line.word, line.by and line.by.words]))
                self.stdout.write(f"  {line.what}, {stands}: “{want.job}” ({want.job.vehicle}){more}")
        if not view.suppliers:
            self.stdout.write("Nothing is to be bought.")
        for supplier in view.suppliers:
            self.stdout.write(f"To buy from {supplier.name or 'anywhere'}:")
            for buy in supplier.rows:
                said = ", ".join(filter(None, [buy.what, buy.by and buy.by.words, buy.why]))
                self.stdout.write(f"  {said} {buy.cost}".rstrip())
            if supplier.total:
                more = f", {supplier.unpriced} without a price" if supplier.unpriced else ""
                self.stdout.write(f"  {supplier.total}{more}")
