"""A demo garage of its own on a server of its own, for as long as pictures are taken."""

import os
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from io import StringIO
from pathlib import Path
from urllib.request import urlopen

ROOT = Path(__file__).parents[2]


def prepare(folder: Path, port: int) -> None:
    """Settings for this process and the server's: nothing of a garage that is really kept."""
    os.environ |= {
        "DATA_DIR": str(folder),
        "DATABASE_URL": "sqlite:///",
        "DEBUG": "on",
        "PUBLIC_URL": f"http://127.0.0.1:{port}",
        "DJANGO_SETTINGS_MODULE": "garage.settings",
    }
    import django

    django.setup()


def load(jobs: int) -> None:
    """The demo, and recipes put on its first car until that has so many jobs; then a plan."""
    from django.core.management import call_command

    call_command("migrate", verbosity=0)
    call_command("demo", stdout=StringIO())
    _fill(jobs)
    call_command("plan", stdout=StringIO())


def _fill(jobs: int) -> None:
    from builds.recipes.actions.putting import put_several
    from builds.recipes.facts import known_recipes
    from builds.work.models.job import Job
    from garage import clock
    from garage.models import Garage

    garage = Garage.objects.get()
    car, member = garage.vehicles.first(), garage.memberships.get(role="owner")
    for known in known_recipes(garage):
        if Job.objects.on(car).count() >= jobs:
            break
        put_several([known.recipe], car, by=member, at=clock.now())


def sign_in_link() -> str:
    from django.core.management import call_command

    out = StringIO()
    call_command("sign_in_link", stdout=out)
    return out.getvalue().split()[-1]


def free_port() -> int:
    with socket.socket() as place:
        place.bind(("127.0.0.1", 0))
        return int(place.getsockname()[1])


@contextmanager
def server(port: int) -> Iterator[str]:
    address = f"http://127.0.0.1:{port}"
    line = [sys.executable, "manage.py", "runserver", "--noreload", "--insecure", f"127.0.0.1:{port}"]
    quiet = subprocess.DEVNULL
    running = subprocess.Popen(line, cwd=ROOT, stdout=quiet, stderr=quiet)  # noqa: S603 (our own server)
    try:
        for _ in range(100):
            with suppress(OSError), urlopen(f"{address}/health/", timeout=2):  # noqa: S310 (our own server)
                break
            time.sleep(0.2)
        yield address
    finally:
        running.terminate()
        running.wait(timeout=20)
