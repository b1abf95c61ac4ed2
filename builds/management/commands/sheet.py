"""Write a sheet as PDF."""

from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils import timezone
from django.utils.text import slugify

from builds.management.lookups import the_garage
from builds.management.sheet_kinds import KINDS
from builds.plan.actions.follow import follow
from builds.plan.engine.words import older_plan_words
from garage import clock


class Command(BaseCommand):
    help = __doc__

    def add_arguments(self, parser: CommandParser) -> None:
        kinds = parser.add_subparsers(dest="which", required=True, metavar="KIND")
        for name, kind in KINDS.items():
            own = kinds.add_parser(name, help=kind.help, description=f"Write {kind.help} as PDF.")
            own.add_argument("--garage", default="", help="its name, where there is more than one")
            own.add_argument("-o", "--output", default="", help="the file, else one named after it")
            kind.ask(own)

    def handle(self, *args: Any, which: str, garage: str, output: str, **options: Any) -> None:
        home = the_garage(garage)
        at = clock.now()
        with timezone.override(home.time_zone):
            if older := older_plan_words(follow(home, at=at)):
                self.stderr.write(older)
            name, data = KINDS[which].draw(home, at, {**options, "older": older})
        file = Path(output or f"{slugify(name)[:80] or which}.pdf")
        try:
            file.write_bytes(data)
        except OSError as wrong:
            raise CommandError(f"{file} cannot be written: {wrong.strerror}.") from wrong
        self.stdout.write(f"{file}: {name}")
