"""What tests of readings share: a reading taken as it should be, and a car that must have some."""

from datetime import timedelta

from django.urls import reverse

from builds.readings.actions import readings
from builds.readings.actions.readings import TargetInput, Typed
from builds.readings.engine.fields import FIGURE
from builds.readings.facts.kinds import kind_of
from builds.steps.actions import jobs, steps
from tests.factories import NOW

HOUR = timedelta(hours=1)
WHOLE = {
    "instrument": "string box",
    "fuel_ml": 20_000,
    "driver": "aboard",
    "front_pa": 190_000,
    "rear_pa": 180_000,
    "floor": "levelled",
    "bars": "unhooked",
}


def take(vehicle, key, by, at=NOW, amount=100, **more):
    """Every value of that kind the same, checks passed; all conditions unless told otherwise."""
    kind = kind_of(vehicle.garage, key)
    values = {
        row.slug: Typed(amount, str(amount / 1000), row.unit("metric")) if row.type == FIGURE else Typed(1, "passed")
        for row in kind.fields
    }
    return readings.take(vehicle, kind, values, by=by, at=at, sure=True, **{**WHOLE, **more})


def limit(vehicle, key):
    """Every figure of that kind has a limit that lets anything pass."""
    kind = kind_of(vehicle.garage, key)
    aims = {field.slug: TargetInput("least", field.least, None, str(field.least)) for field in kind.figures}
    readings.set_targets(vehicle, kind, aims)


def require(vehicle, by, *keys, at=NOW):
    return readings.choose_required(vehicle, keys, by=by, at=at)


def url(name, car, *more):
    return reverse(name, args=[car.pk, *more])


def text(client, address):
    return client.get(address).content.decode()


def voided(car, by, *kinds, hours=1, title="Replace the steering arm"):
    """Work of these kinds that ended so many hours ago."""
    job = jobs.add(car, by=by, at=NOW - 5 * HOUR, title=title, work=(1, 2, 3), kinds=list(kinds))
    steps.finish(job, by=by, at=NOW - hours * HOUR)
    return job
