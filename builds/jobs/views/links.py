"""Links of a job, and the stations its car keeps."""

from django.contrib import messages
from django.http import HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_POST

from builds.jobs.forms.links import CutForm, FreeForm, LinkForm, StationHoldForm, WaitForm
from builds.steps.actions import links
from builds.work.models.job import Job
from builds.work.models.link import Link, StationHold
from garage import clock
from garage.access import refuse_arranging
from garage.http import GarageRequest, back, editable, once, page, require, see
from garage.refusals import refused_aloud, refused_at


@once
def link_add(request: GarageRequest, pk: int) -> HttpResponse:
    job = editable(Job, request.member, pk=pk)
    form = LinkForm(request.POST or None, member=request.member, job=job, at=clock.now())
    if form.is_valid():
        before, after = form.ends()
        with refused_at(form, "other"):
            links.add(before, after, **form.wait())
            messages.success(request, f"“{after}” waits for “{before}”.")
            return see(reverse("job_page", args=[pk]))
    return page(request, "builds/jobs/link_add.html", {"job": job}, form=form, menu="cars")


@once
def link_edit(request: GarageRequest, pk: int) -> HttpResponse:
    link = editable(Link, request.member, pk=pk)
    form = WaitForm(request.POST or None, garage=request.member.garage, link=link)
    if form.is_valid():
        links.change(link, **form.wait())
        messages.success(request, f"The wait between “{link.before}” and “{link.after}” is changed.")
        return back(request, reverse("job_page", args=[link.after_id]))
    return page(request, "builds/jobs/link_edit.html", {"link": link}, form=form, menu="cars")


@once
def link_cut(request: GarageRequest, pk: int) -> HttpResponse:
    link = editable(Link, request.member, pk=pk)
    form = CutForm(request.POST or None)
    if form.is_valid():
        with refused_at(form):
            links.cut(link, because=form.cleaned_data["because"], by=request.member, at=clock.now())
            messages.success(request, f"“{link.after}” no longer waits for “{link.before}”.")
            return back(request, reverse("job_page", args=[link.after_id]))
    return page(request, "builds/jobs/link_cut.html", {"link": link, "job": link.after}, form=form, menu="cars")


@require_POST
@once
def link_delete(request: GarageRequest, pk: int) -> HttpResponse:
    link = editable(Link, request.member, pk=pk)
    with refused_aloud(request):
        links.remove(link)
        again = "waits for “{}” again" if link.cut_because else "no longer waits for “{}”"
        messages.success(request, f"“{link.after}” {again.format(link.before)}.")
    return back(request, reverse("job_page", args=[link.after_id]))


@once
def station_hold_add(request: GarageRequest, pk: int) -> HttpResponse:
    job = editable(Job, request.member, pk=pk)
    form = StationHoldForm(request.POST or None, member=request.member, job=job)
    if form.is_valid():
        station, last = form.cleaned_data["station"], form.cleaned_data["last"]
        with refused_at(form, "last"):
            links.hold_station(station, job, last)
            messages.success(request, f"{station} is kept until “{last}” is done.")
            return see(reverse("job_page", args=[pk]))
    return page(request, "builds/jobs/station_hold_add.html", {"job": job}, form=form, menu="cars")


@require_POST
@once
def station_hold_delete(request: GarageRequest, pk: int) -> HttpResponse:
    kept = editable(StationHold, request.member, pk=pk)
    with refused_aloud(request):
        links.free_station(kept, by=request.member, at=clock.now())
        messages.success(request, f"{kept.station} is no longer kept.")
    return back(request, reverse("job_page", args=[kept.first_id]))


@once
def station_hold_free(request: GarageRequest, pk: int) -> HttpResponse:
    kept = editable(StationHold, request.member, pk=pk, freed_at=None)
    require(refuse_arranging(request.member))
    form = FreeForm(request.POST or None)
    if form.is_valid():
        with refused_at(form):
            links.free_station(kept, by=request.member, at=clock.now(), because=form.cleaned_data["because"])
            messages.success(request, f"{kept.station} is free. {kept.first.vehicle} counts as it did.")
            return back(request, reverse("job_page", args=[kept.last_id]))
    context = {"kept": kept, "job": kept.last}
    return page(request, "builds/jobs/station_hold_free.html", context, form=form, menu="cars")
