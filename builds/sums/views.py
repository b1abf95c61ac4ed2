"""Bench sums: the list, each sum's page, and what is kept of them on a car."""

from django.contrib import messages
from django.http import Http404, HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe

from builds.bench.catalogue import sum_called
from builds.bench.frame.read import texts_of
from builds.bench.frame.sums import Sum
from builds.sums import actions
from builds.sums.facts.car import car_figures
from builds.sums.forms import sum_form
from builds.sums.models import KeptSum
from builds.sums.pages.before import before
from builds.sums.pages.dimensions import dimension_rows, source_lines
from builds.sums.pages.kept import kept_rows
from builds.sums.pages.sum_page import sum_view, sums_found, voids_words, what_ifs
from garage import clock
from garage.access import refuse_work_on
from garage.http import GarageRequest, back, editable, once, page, require, see, visible
from garage.models import Vehicle
from garage.refusals import refused_aloud


@require_safe
def sum_list(request: GarageRequest) -> HttpResponse:
    wanted = request.GET.get("find", "")[:100]
    context = {"topics": sums_found(wanted), "wanted": wanted}
    return page(request, "builds/sums/sum_list.html", context, menu="sums")


@require_safe
def sum_page(request: GarageRequest, slug: str) -> HttpResponse:
    asked, system, at = _sum(slug), request.member.garage.units, clock.now()
    car = _car(request)
    known = car_figures(car, asked, texts_of(asked, request.GET), at) if car else None
    form = sum_form(asked, request.GET, system, known)
    context = {
        "view": sum_view(asked, form.worked if form.is_valid() else None, system),
        "sum": asked,
        "car": car,
        "before": before(car, asked, form.worked, at) if car and form.is_valid() and form.worked else None,
        "voids": voids_words(asked),
        "what_ifs": what_ifs(asked, form.typed, {"car": str(car.pk)} if car else {}, request.path),
        "cars": Vehicle.objects.visible_to(request.member).kept(),
        "known": source_lines(asked, known, system, at) if known else [],
        "works": refuse_work_on(request.member, car) is None,
    }
    return page(request, "builds/sums/sum_page.html", context, menu="sums", form=form)


@require_POST
@once
def sum_keep(request: GarageRequest, slug: str, pk: int) -> HttpResponse:
    vehicle, asked = visible(Vehicle, request.member, pk=pk), _sum(slug)
    require(refuse_work_on(request.member, vehicle))
    with refused_aloud(request):
        actions.keep(vehicle, asked, request.POST.dict(), by=request.member, at=clock.now())
        messages.success(request, f"{asked.title} is kept on {vehicle}.")
        return see(reverse("sum_kept", args=[pk]))
    return back(request, reverse("sum_page", args=[slug]))


@require_safe
def sum_kept(request: GarageRequest, pk: int) -> HttpResponse:
    vehicle, at = visible(Vehicle, request.member, pk=pk), clock.now()
    context = {
        "vehicle": vehicle,
        "rows": kept_rows(vehicle, at),
        "dimensions": dimension_rows(vehicle, at),
        "works": refuse_work_on(request.member, vehicle) is None,
    }
    return page(request, "builds/sums/sum_kept.html", context, menu="cars")


@require_POST
@once
def sum_delete(request: GarageRequest, pk: int) -> HttpResponse:
    kept = editable(KeptSum, request.member, pk=pk)
    vehicle = kept.vehicle_id
    actions.drop(kept)
    messages.success(request, "It is deleted.")
    return see(reverse("sum_kept", args=[vehicle]))


def _sum(slug: str) -> Sum:
    asked = sum_called(slug)
    if asked is None:
        raise Http404
    return asked


def _car(request: GarageRequest) -> Vehicle | None:
    wanted = request.GET.get("car", "")
    if not (wanted.isdecimal() and len(wanted) < 19):
        return None
    return visible(Vehicle, request.member, pk=int(wanted))
