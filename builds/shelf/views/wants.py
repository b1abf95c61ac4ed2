"""What the jobs want: how each want stands, and what to buy."""

from django.contrib import messages
from django.http import HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_safe

from builds.needs.actions import needs
from builds.plan.views.following import follows
from builds.shelf import sheet
from builds.shelf.forms import PartWantForm
from builds.shelf.pages.want_page import load_want_page
from builds.shelf.pages.want_sheet import want_sheet_rows
from garage import clock
from garage.access import refuse_working
from garage.http import GarageRequest, editable, once, page, pdf, see
from garage.refusals import refused_at
from parts.models import Part


@require_safe
@follows
def want_list(request: GarageRequest) -> HttpResponse:
    context = {
        "view": load_want_page(request.member.garage, clock.now()),
        "works": refuse_working(request.member) is None,
    }
    return page(request, "builds/shelf/want_list.html", context, menu="shelf")


@require_safe
@follows
def want_sheet(request: GarageRequest) -> HttpResponse:
    return pdf(sheet.want_sheet(want_sheet_rows(request.member.garage, clock.now())), "wanted")


@once
def want_add(request: GarageRequest, pk: int) -> HttpResponse:
    part = editable(Part, request.member, pk=pk)
    form = PartWantForm(request.POST or None, part=part, by=request.member)
    if form.is_valid():
        job = form.cleaned_data["job"]
        with refused_at(form, "job"):
            needs.add(job, at=clock.now(), part=part, what=part.name, quantity=form.cleaned_data["quantity"])
            messages.success(request, f"“{job}” wants {part}.")
            return see(reverse("job_page", args=[job.pk]))
    return page(request, "builds/shelf/want_add.html", {"part": part}, form=form, menu="shelf")
