"""A part's own page: where it is and what can be done with it, who wants it, every move; and one written down."""

from typing import Any

from django.contrib import messages
from django.http import HttpResponse
from django.urls import reverse
from django.utils.http import urlencode
from django.views.decorators.http import require_safe

from builds.plan.views.following import follows
from builds.shelf.actions import shelf
from builds.shelf.forms import PartAddForm
from builds.shelf.pages.part_page import load_part
from garage import clock
from garage.access import refuse_working
from garage.http import GarageRequest, once, page, require, see, visible
from garage.models import Vehicle
from garage.refusals import refused_at
from parts.models import Part, Place


@require_safe
@follows
def part_page(request: GarageRequest, pk: int) -> HttpResponse:
    part = visible(Part, request.member, pk=pk)
    view = load_part(part, request.member, clock.now(), request.GET.get("page"))
    works = refuse_working(request.member) is None
    context = {"part": part, "view": view, "works": works}
    return page(request, "builds/shelf/part_page.html", context, menu="shelf")


@once
def part_add(request: GarageRequest) -> HttpResponse:
    require(refuse_working(request.member))
    form = PartAddForm(request.POST or None, member=request.member)
    if form.is_valid():
        told = dict(form.cleaned_data)
        car = told.pop("car")
        with refused_at(form):
            part, place = shelf.write_down(
                request.member.garage, by=request.member, at=clock.now(), on_bench=car is not None, **told
            )
            return see(_next(request, part, place, car, told))
    return page(request, "builds/shelf/part_add.html", form=form, menu="shelf")


def _next(request: GarageRequest, part: Part, place: Place | None, car: Vehicle | None, told: dict[str, Any]) -> str:
    """What is still to be said of it: what fitting it asks, where it lies, or nothing."""
    job = told["job"]
    wanted = f" “{job}” wants it." if job else ""
    if car and place:
        messages.success(request, f"{part} is written down.{wanted} Now fit it to {car}.")
        known = {"source": place.pk, "car": car.pk, "quantity": told["quantity"], "job": job.pk if job else ""}
        return f"{reverse('part_move', args=[part.pk, 'fit'])}?{urlencode(known)}"
    if place or job:
        messages.success(request, f"{part} is written down{f', at {place}' if place else ''}.{wanted}")
        return reverse("part_page", args=[part.pk])
    messages.success(request, f"{part} is written down: say where it lies.")
    return reverse("part_move", args=[part.pk, "receive"])
