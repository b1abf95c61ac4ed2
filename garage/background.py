"""Long work in a process of its own, which a restart of the server does not end."""

import subprocess
import sys

from django.conf import settings


def spawn(command: str, *words: str) -> None:
    """Begin one of our own management commands and do not wait for it."""
    subprocess.Popen(  # noqa: S603 (our own interpreter, our own command)
        [sys.executable, str(settings.BASE_DIR / "manage.py"), command, *words],
        cwd=settings.BASE_DIR,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
        start_new_session=True,
    )
