"""What can be found in a garage: each thing with its name, as rows."""

from collections.abc import Iterator
from typing import NamedTuple

from django.db.models import Value
from django.db.models.functions import Concat, Trim

from builds.readings.engine import READINGS
from builds.recipes.facts import known_recipes
from builds.work.models.job import Job
from garage.models import Event, Garage, Membership, Vehicle
from parts.models import Part


class Thing(NamedTuple):
    """`kind` is car, job, part, reading, person, event, recipe, sum or page; `pk` its row, of what each car has one
    that of the car, else 0; `key` (slug) of what is no row.
    """

    kind: str
    pk: int
    name: str
    beside: str = ""
    key: str = ""
    state: str = ""


def things_of(garage: Garage) -> Iterator[Thing]:
    """Cars, people, events, recipes; then open jobs, readings, parts; then jobs that are over, newest first.

    Seven queries.
    """
    cars = dict(Vehicle.objects.in_garage(garage).order_by("gone_at", "pk").values_list("pk", "name"))
    for pk, name in cars.items():
        yield Thing("car", pk, name)
    people = Membership.objects.in_garage(garage).active().order_by("pk")
    whole = Trim(Concat("person__name", Value(" "), "person__surname"))
    for pk, name in people.values_list("pk", whole):
        yield Thing("person", pk, name)
    for pk, name in Event.objects.in_garage(garage).order_by("-gates_at").values_list("pk", "name"):
        yield Thing("event", pk, name)
    for known in known_recipes(garage):
        yield Thing("recipe", 0, known.recipe.title, known.recipe.summary, key=known.recipe.key)
    jobs = Job.objects.in_garage(garage)
    columns = ("pk", "title", "vehicle_id", "state")
    for pk, title, car, state in jobs.open().order_by("pk").values_list(*columns):
        yield Thing("job", pk, title, cars[car], state=state)
    for pk, name in cars.items():
        for kind in READINGS:
            yield Thing("reading", pk, "", name, key=kind)
    parts = Part.objects.in_garage(garage).order_by("name", "pk")
    for pk, name, number in parts.values_list("pk", "name", "number"):
        yield Thing("part", pk, name, number)
    for pk, title, car, state in jobs.over().order_by("-finished_at", "-pk").values_list(*columns):
        yield Thing("job", pk, title, cars[car], state=state)
