"""How soon each job could be over, were it alone with what it waits for: no plan can be sooner."""

from __future__ import annotations

from builds.planner.model import NEVER, Model


def soonest_ends(model: Model) -> list[int]:
    """By job, a slot before which it ends in no plan; NEVER when no plan has a place for it."""
    ends = [NEVER] * model.size
    for j in model.topological:
        opens = [ends[first] + wait for first, wait, _ in model.before[j]]
        at = max([model.earliest[j], *opens])
        if at + model.work[j] <= model.horizon and model.crews[j]:
            ends[j] = _alone(model, j, at)
    return ends


def _alone(model: Model, j: int, at: int) -> int:
    """The soonest end of the job begun at slot `at` or later, were everybody free."""
    work, fold = model.work[j], model.fold
    if not work:
        return at
    lasts = (crew.axis.last(fold.folded[at], work) for crew in model.crews[j])
    return min((fold.real[last] + 1 for last in lasts if last is not None), default=NEVER)
