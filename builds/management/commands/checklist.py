"""Write the pre-event sheet of a car as PDF."""

from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils.text import slugify

from builds.loaders.checklist import checklist_rows
from builds.sheets.checklist import checklist
from garage import clock
from garage.models import Entry


class Command(BaseCommand):
    help = __doc__

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("car", help="its name")
        parser.add_argument("event", nargs="?", default="", help="else the next it is entered for")
        parser.add_argument("-o", "--output", default="", help="the file, else CAR-EVENT.pdf")

    def handle(self, *args: Any, car: str, event: str, output: str, **options: Any) -> None:
        at = clock.now()
        entries = Entry.objects.filter(vehicle__name__iexact=car, vehicle__gone_at=None)
        if event:
            entries = entries.filter(event__name__iexact=event)
        found = list(entries.upcoming(at).select_related("event__garage", "vehicle__garage"))
        if not found:
            raise CommandError(f"{car} is not entered for {event or 'anything ahead'}.")
        if len({entry.event.garage_id for entry in found}) > 1:
            raise CommandError(f"More than one garage has a {car}: print it from its page.")
        entry = found[0]
        file = Path(output or f"{slugify(f'{entry.vehicle} {entry.event}')}.pdf")
        file.write_bytes(checklist(checklist_rows(entry, at)))
        self.stdout.write(f"{file}: {entry.vehicle} for {entry.event}")
