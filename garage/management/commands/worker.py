"""Do what is done beside the server: search for a better plan, find the odds of a new one."""

import os
import signal
import sys
import threading
from typing import Any

from django.core.management import call_command
from django.core.management.base import BaseCommand, CommandParser

EVERY = 1.0  # seconds between two looks at an empty queue


class Command(BaseCommand):
    help = "Work through the queue, for as long as it runs. The server starts one unless WORKER_BESIDE is off."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--beside", action="store_true", help="end when standard input ends")

    def handle(self, *args: Any, beside: bool, **options: Any) -> None:
        os.nice(10)  # whoever taps goes first
        if beside:
            threading.Thread(target=_end_with_input, daemon=True).start()
        call_command("db_worker", interval=EVERY, reload=False, startup_delay=False, verbosity=0)


def _end_with_input() -> None:
    """Nothing is ever written to it: it ends with the process that holds the other end."""
    sys.stdin.buffer.read()
    os.kill(os.getpid(), signal.SIGKILL)
