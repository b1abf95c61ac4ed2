"""Readings of a car: the list, a kind's course, one taken, two days compared, one struck out."""

from collections.abc import Iterable
from typing import Any

from django.contrib import messages
from django.core.paginator import Paginator
from django.http import Http404, HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_safe

from builds.bench.offered import sums_for
from builds.readings.actions import readings
from builds.readings.engine import names_of
from builds.readings.engine.conditions import wants_wheels
from builds.readings.engine.fields import OF_DRIVER
from builds.readings.engine.reading_kind import ReadingKind
from builds.readings.facts.kinds import kind_of
from builds.readings.facts.readings import readings_of
from builds.readings.facts.to_take import wanted_kinds
from builds.readings.forms.many import ManyReadingsForm, kinds_sent
from builds.readings.forms.readings import OwnKindForm, ReadingAddForm, StrikeForm
from builds.readings.models.reading import Reading
from builds.readings.pages.amiss import amiss_said
from builds.readings.pages.compare import compared, days_with_readings, on_day
from builds.readings.pages.driver import on_other_cars
from builds.readings.pages.page import goal_rows, history_rows, kind_row, list_view
from builds.readings.pages.trend import trends
from builds.work.facts.strips import on_stands, stripped_until
from garage import clock
from garage.access import refuse_arranging, refuse_work_on, refuse_working
from garage.actions.refused import Refused
from garage.http import GarageRequest, editable, once, page, require, see, visible
from garage.models import Vehicle
from garage.refusals import refused_at

ROWS, DRAWN = 30, 60


def known_kind(vehicle: Vehicle, key: str) -> ReadingKind:
    kind = kind_of(vehicle.garage, key)
    if kind is None:
        raise Http404
    return kind


@require_safe
def reading_list(request: GarageRequest, pk: int) -> HttpResponse:
    vehicle = visible(Vehicle, request.member, pk=pk)
    context = {
        "vehicle": vehicle,
        "view": list_view(vehicle, clock.now()),
        "works": refuse_work_on(request.member, vehicle) is None,
        "arranges": refuse_arranging(request.member) is None,
    }
    return page(request, "builds/readings/reading_list.html", context, menu="cars")


@require_safe
def reading_page(request: GarageRequest, pk: int, key: str) -> HttpResponse:
    vehicle, at = visible(Vehicle, request.member, pk=pk), clock.now()
    kind = known_kind(vehicle, key)
    line = readings_of(vehicle.garage, [vehicle], at)[vehicle.pk].lines[key]
    taken = Reading.objects.on(vehicle).of(key).newest()
    drawn = list(taken.standing().prefetch_related("values")[:DRAWN])[::-1]
    rows = Paginator(taken.with_all(), ROWS).get_page(request.GET.get("page"))
    context = {
        "vehicle": vehicle,
        "kind": kind,
        "row": kind_row(line, vehicle, at),
        "goals": goal_rows(line, vehicle.garage.units),
        "trends": trends(kind, drawn, line.goals, vehicle.garage.units),
        "history": history_rows(line, request.member, rows, at),
        "page_obj": rows,
        "sums": sums_for(readings=[key]),
        "others": on_other_cars(vehicle, request.member) if key in OF_DRIVER else [],
        "works": refuse_work_on(request.member, vehicle) is None,
        "arranges": refuse_arranging(request.member) is None,
    }
    return page(request, "builds/readings/reading_page.html", context, menu="cars")


def _start(request: GarageRequest, vehicle: Vehicle, key: str) -> Reading | None:
    """The reading from which the form's figures are copied, if the address names one; a driver's of any car."""
    wanted = request.GET.get("from", "")
    if not (wanted.isdecimal() and len(wanted) < 19):
        return None
    known = Reading.objects.visible_to(request.member).of(key).prefetch_related("values")
    return (known if key in OF_DRIVER else known.on(vehicle)).filter(pk=wanted).first()


def _say(request: GarageRequest, done: str, vehicle: Vehicle, keys: list[str]) -> None:
    amiss = amiss_said(vehicle, keys)
    messages.add_message(request, messages.ERROR if amiss else messages.SUCCESS, f"{done} {amiss}".strip())


@once
def reading_add(request: GarageRequest, pk: int, key: str) -> HttpResponse:
    vehicle = visible(Vehicle, request.member, pk=pk)
    require(refuse_work_on(request.member, vehicle))
    kind, start = known_kind(vehicle, key), _start(request, vehicle, key)
    form = ReadingAddForm(request.POST or None, kind=kind, vehicle=vehicle, member=request.member, start=start)
    if form.is_valid():
        told = {"by": request.member, "at": clock.now(), **form.told()}
        with refused_at(form):
            readings.take(vehicle, kind, form.typed(), **told)
            _say(request, f"{kind.label} of {vehicle} is written down.", vehicle, [key])
            return see(reverse("reading_page", args=[pk, key]))
    context = {
        "vehicle": vehicle,
        "kind": kind,
        "start": start,
        **_off_wheels(vehicle, [kind]),
    }
    return page(request, "builds/readings/reading_add.html", context, form=form, menu="cars")


def _off_wheels(vehicle: Vehicle, kinds: Iterable[ReadingKind]) -> dict[str, Any]:
    """Why what wants the car on its wheels is kept as a note, where one of these does."""
    on_wheels = any(wants_wheels(kind.conditions) for kind in kinds)
    return {
        "stripped": stripped_until(vehicle, clock.now()) if on_wheels else "",
        "on_stands": on_wheels and on_stands(vehicle),
    }


@once
def reading_many(request: GarageRequest, pk: int) -> HttpResponse:
    vehicle, at = visible(Vehicle, request.member, pk=pk), clock.now()
    require(refuse_work_on(request.member, vehicle))
    sent = request.POST if request.method == "POST" else None
    kinds = wanted_kinds(vehicle, at, kinds_sent(sent))
    form = ManyReadingsForm(sent, kinds=kinds, vehicle=vehicle, member=request.member)
    if form.is_valid():
        try:
            readings.take_many(vehicle, measured := form.measured(), by=request.member, at=at)
        except Refused as refused:
            form.put(str(refused), refused.field)
        else:
            kinds = [one.kind for one in measured]
            _say(request, f"Measured on {vehicle}: {names_of(kinds)}.", vehicle, [kind.key for kind in kinds])
            return see(reverse("reading_list", args=[pk]))
    context = {"vehicle": vehicle, **_off_wheels(vehicle, kinds)}
    return page(request, "builds/readings/reading_many.html", context, form=form, menu="cars")


@require_safe
def reading_compare(request: GarageRequest, pk: int) -> HttpResponse:
    vehicle = visible(Vehicle, request.member, pk=pk)
    days = days_with_readings(vehicle)
    first = on_day(request.GET.get("first", ""), days, index=1)
    second = on_day(request.GET.get("second", ""), days, index=0)
    context = {
        "vehicle": vehicle,
        "days": days,
        "first": first,
        "second": second,
        "view": compared(vehicle, first[0], second[0]) if first and second else None,
    }
    return page(request, "builds/readings/reading_compare.html", context, menu="cars")


@once
def reading_strike(request: GarageRequest, pk: int) -> HttpResponse:
    reading = editable(Reading, request.member, pk=pk)
    vehicle, kind = reading.vehicle, known_kind(reading.vehicle, reading.key)
    form = StrikeForm(request.POST or None)
    if form.is_valid():
        with refused_at(form):
            readings.strike(reading, by=request.member, at=clock.now(), **form.cleaned_data)
            messages.success(request, f"{kind.label} is struck out; it stays on record.")
            return see(reverse("reading_page", args=[vehicle.pk, reading.key]))
    context = {"vehicle": vehicle, "kind": kind, "reading": reading}
    return page(request, "builds/readings/reading_strike.html", context, form=form, menu="cars")


@once
def reading_kind_add(request: GarageRequest, pk: int) -> HttpResponse:
    vehicle = visible(Vehicle, request.member, pk=pk)
    require(refuse_working(request.member))
    form = OwnKindForm(request.POST or None)
    if form.is_valid():
        with refused_at(form):
            kind = readings.add_kind(vehicle.garage, **form.cleaned_data)
            messages.success(request, f"{kind} can be measured on every car.")
            return see(reverse("reading_page", args=[pk, kind.key]))
    context = {"vehicle": vehicle}
    return page(request, "builds/readings/reading_kind_add.html", context, form=form, menu="cars")
