"""Hold points: added, signed by a second pair of eyes, taken off by the owner."""

from django.contrib import messages
from django.http import HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_POST

from builds.jobs.forms.hold_points import HoldPointForm, SeenForm
from builds.steps.actions import hold_points
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job
from garage import clock
from garage.access import refuse_arranging, refuse_working
from garage.actions.refused import Refused
from garage.http import GarageRequest, back, editable, once, page, require, see, visible
from garage.refusals import refused_aloud, refused_at, say_refused


@once
def hold_point_add(request: GarageRequest, pk: int) -> HttpResponse:
    job = editable(Job, request.member, pk=pk)
    form = HoldPointForm(request.POST or None)
    if form.is_valid():
        with refused_at(form, "what"):
            point = hold_points.add(job, form.cleaned_data["what"], **form.point())
            messages.success(request, f"“{job}” stops at its end until this is signed: {point}.")
            return see(reverse("job_page", args=[pk]))
    return page(request, "builds/jobs/hold_point_add.html", {"job": job}, form=form, menu="cars")


@once
def hold_point_sign(request: GarageRequest, pk: int) -> HttpResponse:
    point = visible(HoldPoint, request.member, pk=pk)
    require(refuse_working(request.member))
    job_url = reverse("job_page", args=[point.job_id])
    sent = request.POST if request.method == "POST" else None
    form = SeenForm(sent, member=request.member, point=point)
    if form.is_valid():
        try:
            done = hold_points.sign(point, by=request.member, at=clock.now(), **form.cleaned_data)
        except Refused as refused:
            if not form.has_changed() and not refused.field:
                say_refused(request, str(refused))
                return back(request, job_url)
            form.add_error(refused.field or None, str(refused))
        else:
            after = f" “{point.job}” is done and signed." if done else ""
            messages.success(request, f"Signed: {point}.{after}")
            return back(request, job_url)
    context = {"point": point, "job": point.job}
    return page(request, "builds/jobs/hold_point_sign.html", context, form=form, menu="cars")


@require_POST
@once
def hold_point_delete(request: GarageRequest, pk: int) -> HttpResponse:
    point = editable(HoldPoint, request.member, pk=pk)
    require(refuse_arranging(request.member))
    with refused_aloud(request):
        hold_points.remove(point)
        messages.success(request, f"No longer a hold point: {point}.")
    return back(request, reverse("job_page", args=[point.job_id]))
