"""Addresses of what the log of hours says and of skills lent, and one row of each."""

from builds.work.models.skill_loan import SkillLoan
from tests.factories import NOW, JobFactory, VehicleFactory

# name: what its address names, whom it serves, and whether it is read, drawn and sent, or sent.
ADDRESSES: dict[str, tuple[str, str, str]] = {
    "log_page": ("", "READS_OWN", "read"),
    "log_count": ("", "ARRANGES_OWN", "send"),
    "skill_loan_add": ("job", "WORKS", "form"),
    "skill_loan_delete": ("skill_loan", "WORKS", "send"),
}


def rows(cast):
    job = JobFactory(vehicle=VehicleFactory(garage=cast.garage))
    loan = SkillLoan.objects.create(job=job, member=cast.helper, lent_by=cast.owner, at=NOW)
    return {"skill_loan": loan.pk}
