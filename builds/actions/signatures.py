"""Who may sign: a second pair of eyes, unless there is only one in the garage."""

from builds.models import Job
from garage.access import refuse_working
from garage.actions.refused import Refused
from garage.models import Membership


def workers(job: Job) -> set[int]:
    """Members (pk) whose hands were ever on the job."""
    return set(Membership.objects.filter(spans__job=job).values_list("pk", flat=True))


def only_one(member: Membership) -> bool:
    """Whether nobody else in the garage could look at it."""
    return Membership.objects.in_garage(member.garage_id).hands().count() == 1


def alone_or_refuse(job: Job, who: Membership) -> bool:
    """Whether `who` signs alone; raise Refused when somebody else has to."""
    if who.garage_id != job.vehicle.garage_id or refuse_working(who):
        raise Refused(f"{who} cannot sign here: choose an owner or a helper of this garage.")
    if only_one(who):
        return True
    if who.pk in workers(job):
        raise Refused(f"{who} worked on this job: somebody else has to look at it and sign.")
    return False
