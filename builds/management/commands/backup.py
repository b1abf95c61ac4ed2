"""Write the whole garage, with its photos and settings, into one file, while people work."""

import time
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from garage import clock
from garage.actions import backup
from garage.actions.refused import Refused
from garage.engine.sizes import size_words
from parts.actions.snapshot import proof


class Command(BaseCommand):
    help = __doc__

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("file", nargs="?", type=Path, help="the file or its folder (BACKUP_DIR)")
        parser.add_argument("--with-secrets", action="store_true", help="the secret key and passwords of settings too")

    def handle(self, *args: Any, file: Path | None, with_secrets: bool, **options: Any) -> None:
        began = time.monotonic()
        try:
            made = backup.make(file, prove=proof, secrets=with_secrets, at=clock.now())
        except Refused as refused:
            raise CommandError(str(refused)) from refused
        held = made.manifest
        self.stdout.write(
            f"{made.file}: {size_words(made.bytes)}, {held.rows} rows in {len(held.tables)} tables,"
            f" {len(held.photos)} photo files, {time.monotonic() - began:.1f} s.\n"
            "It holds everything private and what passwords are checked against: keep it safe, and not only here."
        )
        for photo in held.missing_photos:
            self.stdout.write(f"Missing: the file of the photo {photo}.")
        if made.faults:
            raise CommandError(made.faults_words)
