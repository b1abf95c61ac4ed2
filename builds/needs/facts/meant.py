"""Which part of the shelf a job means that wants something in words alone."""

from builds.needs.facts.fits import answer_of
from builds.recipes.engine.eats import answers, is_one, same
from builds.work.models.job import Job
from builds.work.models.need import Need
from parts.engine.fit import DOES_NOT
from parts.models import Part


def called_so(need: Need, name: str) -> bool:
    """A part of that name is what it asks for, or a kind of it: of a name of one word anything is."""
    return same(need.what, name) or (" " in need.what.strip() and answers(need.what, name))


def _answers(need: Need, part: Part) -> bool:
    """Called so, and of no other size."""
    return called_so(need, part.name) and _of_no_other_size(need, part)


def _of_no_other_size(need: Need, part: Part) -> bool:
    answer = answer_of(need, part)
    return answer is None or answer.state != DOES_NOT


def meant_by(job: Job, part: Part) -> Need | None:
    """What the job wants by that name without having said which part: what is not here yet first."""
    asked = Need.objects.of(job).filter(part=None).with_ends().order_by("pk")
    return min((need for need in asked if _answers(need, part)), key=lambda need: need.got_at is not None, default=None)


def meant_by_pull(job: Job, part: Part) -> Need | None:
    """As `meant_by`, for a part in the hand: it is also the one thing of its kind that the job still waits for."""
    if meant := meant_by(job, part):
        return meant
    asked = Need.objects.of(job).filter(part=None, got_at=None).with_ends().order_by("pk")
    of_its_kind = [need for need in asked if is_one(need.what, part.name) and _of_no_other_size(need, part)]
    return of_its_kind[0] if len(of_its_kind) == 1 else None


def looking_for(part: Part) -> list[Need]:
    """What open jobs still want by its name without having said which part; one query."""
    asked = Need.objects.in_garage(part.garage_id).open().filter(part=None).with_ends().order_by("pk")
    return [need for need in asked if _answers(need, part)]
