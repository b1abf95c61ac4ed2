"""Jobs: written down, changed, read."""

from django.contrib import messages
from django.http import HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_safe

from builds.actions import jobs
from builds.forms.jobs import JobForm
from builds.loaders.job_page import view_of
from builds.models import Job
from garage import clock
from garage.access import refuse_working
from garage.http import GarageRequest, editable, once, page, require, see, visible
from garage.models import Vehicle


@require_safe
def job_page(request: GarageRequest, pk: int) -> HttpResponse:
    job = visible(Job, request.member, pk=pk)
    works = refuse_working(request.member) is None
    context = {"view": view_of(job, clock.now()), "job": job, "works": works}
    return page(request, "builds/job_page.html", context, place="cars")


@once
def job_add(request: GarageRequest, pk: int) -> HttpResponse:
    vehicle = visible(Vehicle, request.member, pk=pk)
    require(refuse_working(request.member))
    form = JobForm(request.POST or None, garage=vehicle.garage)
    if form.is_valid():
        written = form.written()
        job = jobs.add(vehicle, by=request.member, at=clock.now(), **written)
        messages.success(request, f"{job} is on the list of {vehicle}.")
        return see(reverse("job_page", args=[job.pk]))
    return page(request, "builds/job_add.html", {"vehicle": vehicle}, form=form, place="cars")


@once
def job_edit(request: GarageRequest, pk: int) -> HttpResponse:
    job = editable(Job, request.member, pk=pk)
    form = JobForm(request.POST or None, garage=job.vehicle.garage, job=job)
    if form.is_valid():
        jobs.change(job, at=clock.now(), **form.written())
        messages.success(request, f"{job} is changed.")
        return see(reverse("job_page", args=[pk]))
    return page(request, "builds/job_edit.html", {"job": job}, form=form, place="cars")
