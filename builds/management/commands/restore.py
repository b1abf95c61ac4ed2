"""Bring a garage back from a backup: into an empty database, or in the place of the one that is there."""

import time
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from garage import clock
from garage.actions.refused import Refused
from garage.actions.restore import restore
from parts.actions.snapshot import proof


class Command(BaseCommand):
    help = __doc__

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("file", type=Path, help="as `manage.py backup` wrote it")
        parser.add_argument("--replace", action="store_true", help="move aside what is there (SQLite)")

    def handle(self, *args: Any, file: Path, replace: bool, **options: Any) -> None:
        began = time.monotonic()
        try:
            done = restore(file, prove=proof, replace=replace, at=clock.now())
        except Refused as refused:
            raise CommandError(str(refused)) from refused
        held = done.manifest
        self.stdout.write(
            f"The garage is as it was on {held.made_at[:16].replace('T', ' ')} UTC: {held.rows} rows,"
            f" {len(held.photos)} photo files, {held.moves} moves whose balances add up,"
            f" {time.monotonic() - began:.1f} s."
        )
        for path in done.aside:
            self.stdout.write(f"What was there before is kept as {path}")
        for photo in held.missing_photos:
            self.stdout.write(f"Missing: the file of the photo {photo}, which the backup lacks.")
        self.stdout.write(
            "Everybody signs in anew. Share links ended, people sent away and passwords changed since then"
            " are as they were: look through People and Sharing."
        )
