"""Copy everything from the database in use into an empty one, such as from SQLite to PostgreSQL, and compare both."""

import time
from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError, CommandParser

from garage import clock
from garage.actions.copy_database import copy_database
from garage.actions.refused import Refused
from parts.actions.snapshot import proof


class Command(BaseCommand):
    help = __doc__

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("address", help="of the empty database, as DATABASE_URL names one: postgres://…")

    def handle(self, *args: Any, address: str, **options: Any) -> None:
        began = time.monotonic()
        try:
            done = copy_database(address, prove=proof, at=clock.now())
        except Refused as refused:
            raise CommandError(str(refused)) from refused
        for table in done.tables:
            self.stdout.write(f"  {table.rows:>8}  {table.digest[:16]}  {table.name}")
        rows = sum(table.rows for table in done.tables)
        self.stdout.write(
            f"{rows} rows in {len(done.tables)} tables, from {done.engines[0]} to {done.engines[1]},"
            f" {time.monotonic() - began:.1f} s. Compared in both: of each table how many rows, and a digest of all"
            f" that they say, as above; and the balances of {done.moves} moves.\n"
            f"Photos stay in {settings.PHOTO_DIR}. Set DATABASE_URL to the new database, and start the server;"
            " the old one is as it was."
        )
