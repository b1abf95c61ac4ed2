"""A list of jobs pasted, looked at, written down."""

from django.contrib import messages
from django.http import HttpResponse
from django.urls import reverse

from builds.jobs.actions import write_list
from builds.jobs.forms.pasted import PasteForm
from builds.jobs.pages.pasted import copied, left_out, others, parts_named, preview
from builds.recipes.actions.wanted import DAYS_TO_COME
from garage import clock
from garage.access import refuse_work_on
from garage.http import GarageRequest, once, ours, page, require, see, visible
from garage.models import Vehicle

NOT_YET = 422  # looked at, and nothing written


@once
def job_paste(request: GarageRequest, pk: int) -> HttpResponse:
    vehicle = visible(Vehicle, request.member, pk=pk)
    require(refuse_work_on(request.member, vehicle))
    then = ours(
        request,
        request.POST.get("next") or request.GET.get("next", ""),
        reverse("vehicle_page", args=[pk]),
    )
    form = PasteForm(request.POST or None, vehicle=vehicle, initial={"lines": _copied(request)})
    lines = preview(form.list, vehicle) if form.is_valid() else []
    new = [line for line in lines if not line.there]
    if new and request.POST.get("step") in ("save", "want"):
        _save(request, vehicle, form)
        return see(then)
    context = {
        "vehicle": vehicle,
        "then": then,
        "pasted": lines,
        "open_lines": [line for line in lines if not line.whole],
        "whole_lines": [line for line in lines if line.whole],
        "by_words": [line for line in lines if line.understood],
        "left_out": left_out(form.list) if lines else "",
        "new": len(new),
        "alike": [line for line in new if line.like],
        "parts": parts_named(new),
        "days_to_come": DAYS_TO_COME,
        "others": others(vehicle, request.member.garage),
    }
    return page(
        request, "builds/jobs/job_paste.html", context, form=form, menu="cars", status=NOT_YET if form.is_bound else 0
    )


def _copied(request: GarageRequest) -> str:
    """The list of another car, where one is named."""
    wanted = request.GET.get("from", "")
    return copied(visible(Vehicle, request.member, pk=int(wanted))) if wanted.isdecimal() and len(wanted) < 19 else ""


def _save(request: GarageRequest, vehicle: Vehicle, form: PasteForm) -> None:
    wants = request.POST.get("step") == "want"
    once = request.POST.getlist("once")
    many = len(write_list(vehicle, form.list, by=request.member, at=clock.now(), wants=wants, once=once))
    messages.success(request, f"{many} job{' is' if many == 1 else 's are'} written down for {vehicle}.")
