"""What a job's recipe says it eats and nobody has asked for yet, with what the shelf has of it."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from builds.needs.facts.shelf_names import shelf_names
from builds.recipes.engine.eats import Eaten, best, eaten, same
from builds.work.models.job import Job
from builds.work.models.need import Need
from garage.models import Garage
from parts.engine.words import amount_words
from parts.models import Part


@dataclass(frozen=True)
class Suggestion:
    """`line` is how the recipe says it; `part` the one on the shelf that is meant, if one is."""

    line: str
    eaten: Eaten
    part: Part | None

    @property
    def words(self) -> str:
        return f"{amount_words(self.eaten.unit, self.eaten.quantity)} of {self.eaten.name}"

    @property
    def need(self) -> dict[str, Any]:
        """What is asked for and how many; in words alone the amount is one of them."""
        if self.part:
            return {"what": self.part.name, "quantity": self.eaten.quantity}
        return {"what": self.eaten.words}


def suggested(job: Job, wanted: Iterable[Need]) -> list[Suggestion]:
    """What is not among the `wanted`, its needs as they are asked for; two queries, one less where the shelf is
    remembered, or none for a job that eats nothing.
    """
    if not job.eats:
        return []
    wanted = list(wanted)
    names = [need.what for need in wanted] + [need.part.name for need in wanted if need.part]
    amounts = [(line, eaten(line)) for line in job.eats]
    meant = _meant(job.vehicle.garage, [amount for _, amount in amounts])
    suggestions = []
    for line, amount in amounts:
        part = meant.get(amount)
        called = {amount.name, amount.words, part.name if part else amount.name}
        if not any(same(name, other) for name in names for other in called):
            suggestions.append(Suggestion(line, amount, part))
    return suggestions


def _meant(garage: Garage, amounts: list[Eaten]) -> dict[Eaten, Part]:
    """The part on the shelf of each, where one is meant."""
    names, part_of = shelf_names(garage), dict[Eaten, int]()
    for amount in amounts:
        fitting = [part for part in names.near(amount.name) if part.unit == amount.unit and not part.single]
        position = best(amount.name, [part.name for part in fitting])
        if position is not None:
            part_of[amount] = fitting[position].pk
    parts = Part.objects.in_bulk(set(part_of.values()))
    return {amount: parts[pk] for amount, pk in part_of.items()}
