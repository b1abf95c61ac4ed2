"""A skill lent for one job."""

from django.contrib import messages
from django.http import HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_POST

from builds.jobs.forms.skill_loans import SkillLoanForm
from builds.steps.actions import skill_loans
from builds.work.models.job import Job
from builds.work.models.skill_loan import SkillLoan
from garage import clock
from garage.http import GarageRequest, back, editable, once, page, see
from garage.refusals import refused_at


@once
def skill_loan_add(request: GarageRequest, pk: int) -> HttpResponse:
    job = editable(Job, request.member, pk=pk)
    form = SkillLoanForm(request.POST or None, job=job)
    if form.is_valid():
        member = form.cleaned_data["member"]
        with refused_at(form, "member"):
            skill_loans.lend(job, member, by=request.member, at=clock.now())
            messages.success(request, f"{member} may do “{job}”: plan again to use it.")
            return see(reverse("job_page", args=[pk]))
    return page(request, "builds/jobs/skill_loan_add.html", {"job": job}, form=form, menu="cars")


@require_POST
@once
def skill_loan_delete(request: GarageRequest, pk: int) -> HttpResponse:
    loan = editable(SkillLoan, request.member, pk=pk)
    skill_loans.take_back(loan)
    messages.success(request, f"{loan.member} no longer does “{loan.job}”.")
    return back(request, reverse("job_page", args=[loan.job_id]))
