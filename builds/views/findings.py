"""Something found while a job is in hand."""

from django.contrib import messages
from django.http import HttpResponse
from django.urls import reverse

from builds.actions import findings
from builds.forms.findings import FoundForm
from builds.loaders.plan_effect import effect_of
from builds.models import Job
from garage import clock
from garage.http import GarageRequest, back, editable, once, page


@once
def job_found(request: GarageRequest, pk: int) -> HttpResponse:
    job = editable(Job, request.member, pk=pk)
    form = FoundForm(request.POST or None)
    if form.is_valid():
        opened = findings.found(job, **form.cleaned_data, by=request.member, at=clock.now())
        effect = effect_of(request.member.garage, opened, clock.now())
        messages.success(request, f"{opened}: written down as {opened.rank}. {effect}".strip())
        return back(request, reverse("job_page", args=[pk]))
    return page(request, "builds/job_found.html", {"job": job}, form=form, place="cars")
