"""What stays taken for a while after a job: nobody comes in before the air has cleared."""

from __future__ import annotations

from typing import TYPE_CHECKING

from builds.planner.stock import lower

if TYPE_CHECKING:
    from builds.planner.model import Model


class Clearing:
    """The lanes that the jobs of a model keep past their ends; `jobs` are those that do. Ends are real slots."""

    def __init__(self, model: Model) -> None:
        self.books, self.folded, self.horizon = model.stock.clears, model.fold.folded, model.horizon
        self.slots = [job.clears for job in model.problem.jobs]
        self.jobs = [j for j, books in enumerate(self.books) if books]

    def is_free(self, free: list[int], j: int, end: int) -> bool:
        """Whether nobody is there after the job, should it end in that slot."""
        books = self.books[j]
        span = self._span(j, end) if books else 0
        return not any(span & ~free[first + units - 1] for first, units, _ in books)

    def take(self, free: list[int], j: int, end: int) -> None:
        """Keep it from the slot in which the job ends."""
        for first, units, last in self.books[j]:
            for _ in range(units):
                lower(free, first, last, self._span(j, end))

    def _span(self, j: int, end: int) -> int:
        """The folded slots that hold some of it."""
        over = min(end + self.slots[j], self.horizon)
        return (2 << self.folded[over - 1]) - (1 << self.folded[end]) if end < over else 0
