"""What a job's recipe says it eats and nobody has asked for yet, with what the shelf has of it."""

from dataclasses import dataclass
from typing import Any

from builds.recipes.engine.eats import Eaten, best, eaten, same
from builds.work.models.job import Job
from builds.work.models.need import Need
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


def suggested(job: Job) -> list[Suggestion]:
    """Two queries, or none for a job that eats nothing."""
    if not job.eats:
        return []
    wanted = list(Need.objects.of(job).with_ends())
    names = [need.what for need in wanted] + [need.part.name for need in wanted if need.part]
    shelf = list(Part.objects.in_garage(job.vehicle.garage_id).kept())
    suggestions = []
    for line in job.eats:
        amount = eaten(line)
        fitting = [part for part in shelf if part.unit == amount.unit and not part.single]
        position = best(amount.name, [part.name for part in fitting])
        part = None if position is None else fitting[position]
        called = {amount.name, amount.words, part.name if part else amount.name}
        if not any(same(name, other) for name in names for other in called):
            suggestions.append(Suggestion(line, amount, part))
    return suggestions
