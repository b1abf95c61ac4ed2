"""What the jobs of a recipe need from the shelf, asked for as the recipe is put onto a car."""

from collections.abc import Iterable, Mapping
from datetime import datetime

from builds.recipes.engine.eats import bought, same
from builds.recipes.engine.recipe import RecipeJob
from builds.recipes.facts import counted_on_shelf
from builds.work.models.job import Job
from builds.work.models.need import Need
from garage.models import Garage

DAYS_TO_COME = 3  # from the order; invented, as the hours of recipes are


def ask(garage: Garage, rows: Iterable[RecipeJob], made: Mapping[str, Job], *, at: datetime) -> None:
    """Each part of these rows is a need of the job that was made or joined for it (by key).

    The line of the shelf that is called so answers it. What a joined job needs already is not asked for twice: the
    larger number counts.
    """
    wanting = [asking for asking in rows if asking.parts]
    if not wanting:
        return
    shelf = counted_on_shelf(garage)
    there = list(Need.objects.filter(job__in=[made[asking.key] for asking in wanting]))
    asked = []
    for asking in wanting:
        job = made[asking.key]
        for part in map(bought, asking.parts):
            known = next((need for need in there if need.job_id == job.pk and same(need.what, part.name)), None)
            if known is None:
                lies = next((pk for pk, name, unit in shelf if unit == part.unit and same(name, part.name)), None)
                what = part.name if part.unit == "piece" or lies else part.words
                many = part.quantity if part.unit == "piece" or lies else 1
                asked.append(Need(job=job, part_id=lies, what=what, quantity=many, lead_days=DAYS_TO_COME, asked_at=at))
            elif known.got_at is None and known.quantity < part.quantity and part.unit == "piece":
                known.quantity = part.quantity
                known.save(update_fields=["quantity"])
    Need.objects.bulk_create(asked)
