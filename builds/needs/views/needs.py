"""What a job needs: written down, slipped, there."""

from datetime import datetime
from typing import Any

from django.contrib import messages
from django.http import HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_POST

from builds.needs.actions import needs
from builds.needs.forms import NeedForm, NeedPartForm
from builds.needs.pages.eats import suggested
from builds.needs.pages.offered import offered
from builds.steps.engine.part_said import part_said
from builds.work.models.job import Job
from builds.work.models.need import Need
from garage import clock
from garage.facts.presence import local_minute
from garage.http import GarageRequest, back, editable, once, page, see
from garage.refusals import refused_aloud, refused_at, say_refused


def _form(request: GarageRequest, at: datetime, need: Need | None = None, **more: Any) -> NeedForm:
    today = local_minute(request.member.garage, at)[0]
    return NeedForm(request.POST or None, member=request.member, today=today, need=need, **more)


@once
def need_add(request: GarageRequest, pk: int) -> HttpResponse:
    job, at = editable(Job, request.member, pk=pk), clock.now()
    named = part_said(job.title)
    form = _form(request, at, initial={"what": named.name, "quantity": named.many} if named else {})
    if form.is_valid():
        with refused_at(form):
            need = needs.add(job, at=at, **form.cleaned_data)
            messages.success(request, f"“{job}” needs {need}.")
            return see(reverse("job_page", args=[pk]))
    return page(request, "builds/needs/need_add.html", {"job": job}, form=form, menu="cars")


@require_POST
@once
def need_take(request: GarageRequest, pk: int) -> HttpResponse:
    job, line = editable(Job, request.member, pk=pk), request.POST.get("line", "")
    offered = suggested(job, Need.objects.of(job).with_ends())
    suggestion = next((asked for asked in offered if asked.line == line), None)
    if suggestion is None:
        say_refused(request, "That is asked for already, or its recipe does not eat it.")
        return back(request, reverse("job_page", args=[pk]))
    with refused_aloud(request):
        need = needs.add(job, at=clock.now(), part=suggestion.part, **suggestion.need)
        messages.success(request, f"“{job}” needs {need}.")
    return back(request, reverse("job_page", args=[pk]))


@once
def need_edit(request: GarageRequest, pk: int) -> HttpResponse:
    need, at = editable(Need, request.member, pk=pk), clock.now()
    form = _form(request, at, need)
    if form.is_valid():
        with refused_at(form):
            needs.change(need, by=request.member, **form.cleaned_data)
            messages.success(request, f"{need} is changed.")
            return see(reverse("job_page", args=[need.job_id]))
    context = {"job": need.job, "need": need}
    return page(request, "builds/needs/need_edit.html", context, form=form, menu="cars")


@once
def need_part(request: GarageRequest, pk: int) -> HttpResponse:
    need, garage = editable(Need, request.member, pk=pk), request.member.garage
    form = NeedPartForm(request.POST or None, garage=garage)
    if form.is_valid():
        with refused_at(form, "part"):
            needs.name_part(need, form.cleaned_data["part"], by=request.member)
            messages.success(request, f"“{need.job}” takes “{need.part}” from the shelf.")
            return see(reverse("job_page", args=[need.job_id]))
    text = request.GET.get("q")
    view = offered(need, garage, None if text is None else text[:100].replace("\0", ""))
    context = {
        "job": need.job,
        "need": need,
        "words": view.words,
        "rows": view.rows,
        "refused": view.refused,
        "asked": view.asked,
    }
    return page(request, "builds/needs/need_part.html", context, form=form, menu="cars")


@require_POST
@once
def need_got(request: GarageRequest, pk: int) -> HttpResponse:
    need = editable(Need, request.member, pk=pk)
    if request.POST.get("got") == "no":
        needs.not_here(need)
        messages.success(request, f"{need} is not here after all.")
    else:
        with refused_aloud(request):
            needs.got(need, by=request.member, at=clock.now())
            messages.success(request, f"{need} is here.")
    return back(request, reverse("job_page", args=[need.job_id]))


@require_POST
@once
def need_delete(request: GarageRequest, pk: int) -> HttpResponse:
    need = editable(Need, request.member, pk=pk)
    with refused_aloud(request):
        needs.remove(need, by=request.member)
        messages.success(request, f"“{need.job}” no longer needs {need}.")
    return back(request, reverse("job_page", args=[need.job_id]))
