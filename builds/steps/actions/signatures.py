"""Who may sign: a second pair of eyes, unless there is only one in the garage."""

from builds.work.models.job import Job
from garage.access import refuse_working
from garage.actions.refused import Refused
from garage.models import Membership


def workers(job: Job) -> set[int]:
    """Members (pk) whose hands were ever on the job."""
    return set(Membership.objects.filter(spans__job=job).values_list("pk", flat=True))


def only_one(member: Membership) -> bool:
    """Whether there is only one pair of hands in the garage."""
    return Membership.objects.in_garage(member.garage_id).hands().count() == 1


def refuse_signing(who: Membership, garage: int) -> str | None:
    if who.garage_id != garage or refuse_working(who):
        return f"{who} cannot sign here: choose an owner or a helper of this garage."
    if not who.may_sign:
        return f"{who} may not sign: the owner says who may, on the page of each person."
    return None


def alone_or_refuse(job: Job, who: Membership, by: Membership) -> bool:
    """Whether `who` signs alone; raise Refused when somebody else has to.

    `by` writes it down: whom the owner does not let sign says of nobody else that he looked.
    """
    for member in (who, by):
        if refusal := refuse_signing(member, job.vehicle.garage_id):
            raise Refused(refusal)
    if only_one(who):
        return True
    if who.pk in workers(job):
        raise Refused(f"{who} worked on this job: somebody else has to look at it and sign.")
    return False
