"""Something found while a job is in hand."""

from django.contrib import messages
from django.http import HttpResponse

from builds.jobs.forms.findings import FoundForm
from builds.jobs.views.jobs import with_effect
from builds.steps.actions import findings
from builds.work.models.job import Job
from garage import clock
from garage.http import GarageRequest, editable, once, page, see


@once
def job_found(request: GarageRequest, pk: int) -> HttpResponse:
    job = editable(Job, request.member, pk=pk)
    form = FoundForm(request.POST or None)
    if form.is_valid():
        opened = findings.found(job, **form.cleaned_data, by=request.member, at=clock.now())
        messages.success(request, f"{opened}: written down as {opened.rank}.")
        return see(with_effect(job, opened))
    return page(request, "builds/jobs/job_found.html", {"job": job}, form=form, place="cars")
