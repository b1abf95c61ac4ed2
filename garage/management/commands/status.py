"""Say how the server stands: version, migrations, queue, disk, last backup. Ends with 1 when something is wrong."""

import sys
from typing import Any
from zoneinfo import ZoneInfo

from django.core.management.base import BaseCommand

from garage import clock
from garage.pages.server import server_lines


class Command(BaseCommand):
    help = __doc__

    def handle(self, *args: Any, **options: Any) -> None:
        lines = server_lines(clock.now(), ZoneInfo("UTC"))
        for line in lines:
            self.stdout.write(f"{'!' if line.wrong else ' '} {line.name:<15} {line.words}")
        if any(line.wrong for line in lines):
            sys.exit(1)
