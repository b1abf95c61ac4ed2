"""Write all of one garage into a zip as open files: JSON, CSV and photos, without secrets and without other garages."""

import re
import time
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from garage import clock
from garage.actions.export_garage import export_garage
from garage.actions.refused import Refused
from garage.models import Garage
from garage.pages.open_files import guide_text, open_file_name


class Command(BaseCommand):
    help = __doc__

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("garage", nargs="?", default="", help="its name or its number, where there are several")
        parser.add_argument("--file", type=Path, help="the file or its folder (the current folder)")
        parser.add_argument("--with-emails", action="store_true", help="people's e-mails too")
        parser.add_argument("--guide", action="store_true", help="print what stands in the files, and write none")

    def handle(self, *args: Any, garage: str, file: Path | None, with_emails: bool, guide: bool, **more: Any) -> None:
        if guide:
            self.stdout.write(guide_text(), ending="")
            return
        one, began, at = self.named(garage), time.monotonic(), clock.now()
        target = file or Path.cwd()
        if target.is_dir():
            target = target / open_file_name(one.name, at)
        try:
            held = export_garage(one, target, guide=guide_text(), emails=with_emails, at=at)
        except Refused as refused:
            raise CommandError(str(refused)) from refused
        self.stdout.write(
            f"{target}: {one}, {held.rows} rows in {len(held.tables)} tables, {len(held.photos)} photo files,"
            f" {time.monotonic() - began:.1f} s. No passwords, no links{'' if with_emails else ', no e-mails'};"
            " names, hours and what was paid are in it."
        )
        for photo in held.missing_photos:
            self.stdout.write(f"Missing: the file of the photo {photo}.")

    def named(self, words: str) -> Garage:
        rows = Garage.objects.order_by("pk")
        if words:
            rows = rows.filter(pk=int(words)) if re.fullmatch(r"\d{1,18}", words) else rows.filter(name__iexact=words)
        found = list(rows[:2])
        if len(found) == 1:
            return found[0]
        if not found:
            raise CommandError(f"No garage here is called {words}." if words else "There is no garage here.")
        names = ", ".join(f"{one.pk} ({one})" for one in rows[:20])
        raise CommandError(f"There are several garages: say which by its number. {names}")
