"""Print what every car is owed, what is short, and what runs low."""

from datetime import datetime
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils import timezone

from builds.needs.pages.want_page import load_want_page
from builds.shelf.pages.owed import by_car, owed_lines
from garage import clock
from garage.models import Garage


class Command(BaseCommand):
    help = __doc__

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--garage", help="its name; else every garage")

    def handle(self, *args: Any, garage: str | None, **options: Any) -> None:
        garages = Garage.objects.order_by("pk")
        if garage:
            garages = garages.filter(name=garage)
            if not garages:
                raise CommandError(f"There is no garage called {garage}.")
        at = clock.now()
        for each in garages:
            with timezone.override(each.time_zone):
                self.stdout.write(self.style.MIGRATE_HEADING(f"{each}, {timezone.localtime(at):%A %H:%M}"))
                self._owed(each, at)
                self._short(each, at)

    def _owed(self, garage: Garage, at: datetime) -> None:
        lines = owed_lines(garage, at)
        if not lines:
            self.stdout.write("Nothing is owed.")
        for car, owed in by_car(lines):
            self.stdout.write(f"{car} is owed:")
            for line in owed:
                many = f"{line.amount} of " if line.amount else ""
                went = f", for {line.went_to} ({line.went_to.vehicle})" if line.went_to else ""
                said = f"{many}{line.part} ({line.job.rank}) since {line.since}"
                self.stdout.write(f"  {said}, now {line.where}{went}")

    def _short(self, garage: Garage, at: datetime) -> None:
        view = load_want_page(garage, at)
        for state, label, rows in view.groups:
            if state == "shelf":
                continue
            self.stdout.write(f"{label}:")
            for row in rows:
                more = f". {row.line.behind}" if row.line.behind else ""
                self.stdout.write(f"  {row.line.what}, {row.line.word}: {row.job} ({row.job.vehicle}){more}")
        if not view.suppliers:
            self.stdout.write("Nothing is to be bought.")
        for supplier in view.suppliers:
            self.stdout.write(f"To buy from {supplier.name or 'anywhere'}:")
            for buy in supplier.rows:
                self.stdout.write(f"  {buy.what}, {buy.why} {buy.cost}".rstrip())
            if supplier.total:
                more = f", {supplier.unpriced} without a price" if supplier.unpriced else ""
                self.stdout.write(f"  {supplier.total}{more}")
