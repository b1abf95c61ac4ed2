"""Who is sought after by the work that is left: the people whom a new plan spares."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence

from builds.planner.axis import length
from builds.planner.crews import THRIFT, Crew
from builds.planner.model import Model


class Demand:
    """Sorts the crews of a model anew, the least sought-after people first, as a first plan of what is left would."""

    def __init__(self, model: Model) -> None:
        self.model = model
        jobs, people = model.problem.jobs, model.problem.people
        self.asked = [(job.skill, job.work) if job.skill and job.hands else None for job in jobs]
        self.skills = [person.skills for person in people]
        self.offered: dict[str, int] = defaultdict(int)
        for skills, hours in zip(self.skills, model.roster.hours, strict=True):
            for skill in skills:
                self.offered[skill] += length(hours)
        self.kinds = [(crews, [j for j in range(model.size) if _are(model.crews[j], crews)]) for crews in _lists(model)]

    def spare(self, left: Sequence[int]) -> None:
        """Price every crew by what the jobs that are left ask for."""
        asked: dict[str, int] = defaultdict(int)
        for j in left:
            wanted = self.asked[j]
            if wanted:
                asked[wanted[0]] += wanted[1]
        sought = [sum(asked[skill] / max(1, self.offered[skill]) for skill in skills) for skills in self.skills]
        most = max(sought, default=0) or 1
        for crews, jobs in self.kinds:
            prices = {crew.people: sum(sought[person] for person in crew.people) / most for crew in crews}
            crews.sort(key=lambda crew: (prices[crew.people], -len(crew.axis.slots), crew.people))
            least = prices[crews[0].people]
            for crew in crews:
                crew.cost = round(THRIFT * (prices[crew.people] - least))
            for j in jobs:
                work = self.model.work[j]
                self.model.crews[j] = [crew for crew in crews if len(crew.axis.slots) >= work]


def _lists(model: Model) -> list[list[Crew]]:
    """The crews of each kind of job among which there is a choice."""
    return [crews[:] for crews in model.roster.answers.values() if len(crews) > 1]


def _are(mine: list[Crew], crews: list[Crew]) -> bool:
    return bool(mine) and any(mine[0] is crew for crew in crews)
