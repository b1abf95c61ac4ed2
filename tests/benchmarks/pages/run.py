"""`python -m tests.benchmarks.pages.run --years 5`: one made garage measured, as JSON; or one page profiled."""

import argparse
import cProfile
import json
import os
import pstats
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from time import process_time
from typing import Any
from unittest import mock

KEPT = Path(tempfile.gettempdir()) / "witness-mark-pages"
SHOWN = 45


def main() -> None:
    given = argparse.ArgumentParser(description=__doc__)
    given.add_argument("--years", type=int, default=5)
    given.add_argument("--only", default="")
    given.add_argument("--keep", action="store_true")
    given.add_argument("--profile", default="", help="the name of one page: where its time goes, nothing else")
    given.add_argument("--sort", default="cumulative")
    asked = given.parse_args()
    _settings(asked.years)
    from tests.factories import NOW

    with mock.patch("garage.clock.now", lambda: NOW), _database(asked.years, keep=asked.keep or bool(asked.profile)):
        if asked.profile:
            _profile(asked)
        else:
            json.dump(_everything(asked), sys.stdout)


def _settings(years: int) -> None:
    """A database of its own, whatever the settings name; files nowhere near the real ones."""
    os.environ["DJANGO_SETTINGS_MODULE"] = "garage.settings"
    KEPT.mkdir(exist_ok=True)
    os.environ["DATA_DIR"] = str(KEPT)
    import django
    from django.conf import settings

    plain = {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"}
    settings.STORAGES = {**settings.STORAGES, "staticfiles": plain}
    settings.ALLOWED_HOSTS = ["testserver"]
    for database in settings.DATABASES.values():
        lite = "sqlite" in database["ENGINE"]
        database["TEST"] = {"NAME": str(KEPT / f"{years}.sqlite3") if lite else f"witness_mark_pages_{years}"}
    django.setup()


@contextmanager
def _database(years: int, *, keep: bool) -> Iterator[None]:
    from django.db import connection

    from garage.writes import written

    written.disconnect(dispatch_uid="the plan follows")  # beside the answer, so none of its time
    name = connection.settings_dict["NAME"]
    connection.creation.create_test_db(verbosity=0, autoclobber=True, serialize=False, keepdb=keep)
    yield
    connection.creation.destroy_test_db(name, verbosity=0, keepdb=keep)


def _made(years: int) -> Any:
    from django.db import transaction

    from garage.models import Garage
    from tests.benchmarks.pages import base, days, measured, shelf, work
    from tests.factories import NOW

    if garage := Garage.objects.first():
        cars, members = list(garage.vehicles.order_by("pk")), list(garage.memberships.order_by("pk"))
        return base.Made(garage, NOW, years, cars, members)
    with transaction.atomic():
        made = base.begun(NOW, years)
        for fill in (work.work, shelf.shelf, measured.readings, measured.joints, days.events):
            fill(made)
    base.planned(made)
    return made


def _client(made: Any) -> Any:
    from django.test import Client

    client = Client()
    client.force_login(made.owner.person)
    return client


def _everything(asked: argparse.Namespace) -> dict[str, Any]:
    from tests.benchmarks.pages.measure import measured
    from tests.benchmarks.pages.pages import pages
    from tests.benchmarks.pages.taps import press, taps

    made = _made(asked.years)
    client, drawn, tapped, not_drawn = _client(made), {}, {}, []
    for name, path in pages(made):
        if asked.only in name:
            page = measured(client, path)
            if page.status == 200:
                drawn[name] = vars(page)
            else:
                not_drawn.append(f"{name} ({page.status})")
    for tap in taps(made):
        if asked.only in tap[0]:
            wrote, answered = press(client, made, tap)
            tapped[tap[0]], tapped[f"{tap[0]}, then its page"] = vars(wrote), vars(answered)
    return {"pages": drawn, "taps": tapped, "not_drawn": not_drawn}


def _profile(asked: argparse.Namespace) -> None:
    from tests.benchmarks.pages.pages import pages

    made = _made(asked.years)
    client, path = _client(made), dict(pages(made))[asked.profile]
    client.get(path)
    profile = cProfile.Profile(process_time)
    profile.runcall(client.get, path)
    pstats.Stats(profile).sort_stats(asked.sort).print_stats(SHOWN)


if __name__ == "__main__":
    main()
