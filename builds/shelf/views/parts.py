"""A part's own page: where it is and what can be done with it, who wants it, every move."""

from django.contrib import messages
from django.http import HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_safe

from builds.needs.actions import needs
from builds.needs.forms import PartWantForm
from builds.shelf.pages.part_page import load_part
from garage import clock
from garage.access import refuse_working
from garage.actions.refused import Refused
from garage.http import GarageRequest, editable, once, page, see, visible
from parts.models import Part


@require_safe
def part_page(request: GarageRequest, pk: int) -> HttpResponse:
    part = visible(Part, request.member, pk=pk)
    view = load_part(part, request.member, clock.now(), request.GET.get("page"))
    works = refuse_working(request.member) is None
    context = {"part": part, "view": view, "works": works}
    return page(request, "builds/shelf/part_page.html", context, place="shelf")


@once
def part_want(request: GarageRequest, pk: int) -> HttpResponse:
    part = editable(Part, request.member, pk=pk)
    form = PartWantForm(request.POST or None, part=part)
    if form.is_valid():
        job = form.cleaned_data["job"]
        try:
            needs.add(job, at=clock.now(), part=part, what=part.name,
                      quantity=form.cleaned_data["quantity"])  # fmt: skip
        except Refused as refused:
            form.add_error("job", str(refused))
        else:
            messages.success(request, f"{job} wants {part}.")
            return see(reverse("job_page", args=[job.pk]))
    return page(request, "builds/shelf/part_want.html", {"part": part}, form=form, place="shelf")
