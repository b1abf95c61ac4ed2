"""`python -m tests.benchmarks.garages`: fifty garages on one server, with one, two and four web processes: a table."""

import argparse
import os
import tempfile
import threading
from contextlib import suppress
from pathlib import Path
from statistics import quantiles
from typing import Any
from urllib.parse import urlsplit

NAME = "witness_mark_load"
FOLDER = Path(tempfile.gettempdir()) / NAME
SEARCHES = 4
HANDS = 8  # that never rest
HEAD = (
    *("web processes", "how", "taps a second", "reads p50 / p95 ms", "saves p50 / p95 ms", "errors"),
    *("CPU ms a tap", "MB web", "MB workers", "seconds searched"),
)
EVERY = 30.0  # seconds between two taps of one who works


def main() -> None:
    given = argparse.ArgumentParser(description=__doc__)
    given.add_argument("--garages", type=int, default=50)
    given.add_argument("--processes", type=int, nargs="*", default=[1, 2, 4])
    given.add_argument("--seconds", type=float, default=40.0, help="of each of the two ways to drive them")
    given.add_argument("--port", type=int, default=8790)
    asked = given.parse_args()
    _database()
    from tests.benchmarks.garages.built import hands

    made = hands(asked.garages)
    print(
        f"{asked.garages} garages; others kept this machine busy at {os.getloadavg()[0]:.1f} of {os.cpu_count()} cores."
    )
    print(f"| {' | '.join(HEAD)} |\n|{' --: |' * len(HEAD)}")
    for number, processes in enumerate(asked.processes):
        _round(made, processes, asked.seconds, asked.port + number)


def _database() -> None:
    """One of its own beside the one that is set, with what it held the last time; files nowhere near the real ones."""
    FOLDER.mkdir(exist_ok=True)
    os.environ |= {"DJANGO_SETTINGS_MODULE": "garage.settings", "DATA_DIR": str(FOLDER), "LOG_FILE": ""}
    url = os.environ.get("DATABASE_URL", "")
    import django
    from django.conf import settings

    lite = not url.startswith("postgres")
    name = str(FOLDER / "load.sqlite3") if lite else NAME
    settings.DATABASES["default"]["TEST"] = {"NAME": name}
    django.setup()
    from django.core.management import call_command
    from django.db import connection

    from garage.writes import written

    call_command("collectstatic", interactive=False, verbosity=0)
    connection.creation.create_test_db(verbosity=0, autoclobber=True, serialize=False, keepdb=True)
    written.disconnect(dispatch_uid="the plan follows")  # while they are built; each is planned once
    os.environ["DATABASE_URL"] = f"sqlite:///{name}" if lite else urlsplit(url)._replace(path=f"/{name}").geturl()


def _round(made: list[Any], processes: int, seconds: float, port: int) -> None:
    from tests.benchmarks.garages.driven import Phone, calm, rush
    from tests.benchmarks.garages.served import cpu_seconds, megabytes, serving

    with serving(processes, port, FOLDER) as served:
        phones = [Phone(served.port, hand, number) for number, hand in enumerate(made)]
        rush(phones[:HANDS], seconds=5)  # what a process loads once, it has loaded
        for how in ("calm", "rush"):
            over, searched, spent = threading.Event(), _searched(), cpu_seconds(served.web)
            searching = threading.Thread(target=_search, args=[phones[-SEARCHES:], over])
            searching.start()
            waited = (
                calm(phones, seconds=seconds, every=EVERY) if how == "calm" else rush(phones[:HANDS], seconds=seconds)
            )
            spent = cpu_seconds(served.web) - spent
            over.set()
            searching.join()
            memory = (megabytes(served.web), megabytes(served.workers))
            print(_line(processes, how, waited, spent, memory, _searched() - searched), flush=True)


def _search(phones: list[Any], over: threading.Event) -> None:
    """In each of these garages one after the other: what is asked while one runs is refused."""
    while not over.is_set():
        for phone in phones:
            with suppress(OSError):
                phone.search()
        over.wait(2)


def _searched() -> float:
    """Seconds that workers have searched for better plans."""
    from builds.plan.models import Search

    return sum((search.seen_at - search.began_at).total_seconds() for search in Search.objects.all())


def _line(processes: int, how: str, waited: Any, spent: float, memory: tuple[float, float], searched: float) -> str:
    for error in sorted(set(waited.errors)):
        print(f"  {waited.errors.count(error)} × {error}")
    reads, saves = (_half_and_most(seconds) for seconds in (waited.reads, waited.saves))
    columns = (
        *(f"{processes}", how, f"{waited.answered / waited.seconds:.1f}", reads, saves, f"{len(waited.errors)}"),
        *(f"{spent / max(waited.answered, 1) * 1000:.0f}", f"{memory[0]:.0f}", f"{memory[1]:.0f}", f"{searched:.0f}"),
    )
    return f"| {' | '.join(columns)} |"


def _half_and_most(seconds: list[float]) -> str:
    if len(seconds) < 2:
        return "-"
    cuts = quantiles(seconds, n=20, method="inclusive")
    return f"{cuts[9] * 1000:.0f} / {cuts[18] * 1000:.0f}"


if __name__ == "__main__":
    main()
