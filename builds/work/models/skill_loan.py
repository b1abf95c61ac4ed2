"""A skill lent for one job: somebody who does not have it may do the job all the same."""

from django.db import models

from builds.work.models.job import Job
from garage.models import Membership
from garage.models.scoped import ScopedQuerySet


class SkillLoanQuerySet(ScopedQuerySet):
    garage_path = "job__vehicle__garage"


class SkillLoan(models.Model):
    """`lent_by` has the skill or owns the garage, and answers for it."""

    job = models.ForeignKey(Job, models.CASCADE, related_name="skill_loans")
    member = models.ForeignKey(Membership, models.CASCADE, related_name="+")
    lent_by = models.ForeignKey(Membership, models.PROTECT, related_name="+")
    at = models.DateTimeField()

    objects = SkillLoanQuerySet.as_manager()

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.UniqueConstraint(fields=["job", "member"], name="skill_loan_once"),
        ]

    def __str__(self) -> str:
        return f"{self.member} may do “{self.job}”"
