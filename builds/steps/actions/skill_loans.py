"""Lending a skill for one job, and taking it back."""

from datetime import datetime

from django.db import transaction

from builds.work.models.job import Job
from builds.work.models.skill_loan import SkillLoan
from garage.access import OWNER
from garage.actions.refused import Refused
from garage.models import Membership


@transaction.atomic
def lend(job: Job, member: Membership, *, by: Membership, at: datetime) -> None:
    """Raises Refused. Twice is once."""
    if job.skill is None:
        raise Refused("This job asks for no skill: anybody can do it.")
    if by.role != OWNER and not by.skills.filter(pk=job.skill_id).exists():
        raise Refused(f"Only the owner or somebody who has it lends it: {job.skill}.")
    if member.skills.filter(pk=job.skill_id).exists():
        raise Refused(f"{member} has it already: {job.skill}.")
    SkillLoan.objects.get_or_create(job=job, member=member, defaults={"lent_by": by, "at": at})


def take_back(loan: SkillLoan) -> None:
    loan.delete()
