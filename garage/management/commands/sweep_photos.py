"""Remove files that no photo names; tell how many photos lack a file. Run it nightly."""

from typing import Any

from django.core.management.base import BaseCommand, CommandError

from garage import clock
from garage.actions import photos


class Command(BaseCommand):
    help = __doc__

    def handle(self, *args: Any, **options: Any) -> None:
        removed, lacking = photos.sweep(at=clock.now())
        self.stdout.write(f"{removed} files that no photo names are gone.")
        if lacking:
            raise CommandError(f"{lacking} photos lack a file: bring back the photos of a backup.")
