"""Write the pre-event sheet of a car as PDF: short for `sheet checklist`."""

from typing import Any

from django.core.management import call_command
from django.core.management.base import BaseCommand, CommandParser

from builds.management.lookups import the_entry
from garage import clock


class Command(BaseCommand):
    help = __doc__

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("car", help="its name")
        parser.add_argument("event", nargs="?", default="", help="else the next it is entered for")
        parser.add_argument("-o", "--output", default="", help="the file, else CAR-EVENT.pdf")

    def handle(self, *args: Any, car: str, event: str, output: str, **options: Any) -> None:
        garage = the_entry(None, car, event, clock.now()).event.garage
        asked = ["--garage", garage.name, *(["--output", output] if output else []), car, *([event] if event else [])]
        call_command("sheet", "checklist", *asked, stdout=self.stdout)
