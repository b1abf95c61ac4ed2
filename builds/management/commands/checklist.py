"""Write the pre-event sheet of a car as PDF."""

from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandParser
from django.utils.text import slugify

from builds.management.lookups import the_entry
from builds.paper.pages.checklist import checklist_rows
from builds.paper.sheets.checklist import checklist
from builds.plan.actions.follow import follow
from garage import clock


class Command(BaseCommand):
    help = __doc__

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("car", help="its name")
        parser.add_argument("event", nargs="?", default="", help="else the next it is entered for")
        parser.add_argument("-o", "--output", default="", help="the file, else CAR-EVENT.pdf")

    def handle(self, *args: Any, car: str, event: str, output: str, **options: Any) -> None:
        at = clock.now()
        entry = the_entry(None, car, event, at)
        follow(entry.event.garage, at=at)
        file = Path(output or f"{slugify(f'{entry.vehicle} {entry.event}')}.pdf")
        file.write_bytes(checklist(checklist_rows(entry, at)))
        self.stdout.write(f"{file}: {entry.vehicle} for {entry.event}")
