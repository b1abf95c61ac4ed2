"""Stations: the places that work needs, and when they are open."""

from django.contrib import messages
from django.db.models import Model, ProtectedError
from django.http import HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe

from garage.access import refuse_arranging
from garage.actions import stations
from garage.engine.words import listed_in_words
from garage.forms.stations import StationForm
from garage.http import GarageRequest, back, editable, once, page, require, see
from garage.models import Station
from garage.refusals import say_refused

NAMED = 3  # of what uses a station, in the sentence that refuses to delete it


@require_safe
def station_list(request: GarageRequest) -> HttpResponse:
    rows = Station.objects.visible_to(request.member).prefetch_related("weekly_hours")
    arranges = refuse_arranging(request.member) is None
    context = {"stations": rows, "arranges": arranges}
    return page(request, "garage/station_list.html", context, menu="people")


@once
def station_add(request: GarageRequest) -> HttpResponse:
    require(refuse_arranging(request.member))
    form = StationForm(request.POST or None, garage=request.member.garage)
    if form.is_valid():
        station = stations.add(request.member.garage, **form.cleaned_data)
        messages.success(request, f"{station} is there.")
        return see(reverse("station_list"))
    return page(request, "garage/station_form.html", form=form, menu="people")


@once
def station_edit(request: GarageRequest, pk: int) -> HttpResponse:
    station = editable(Station, request.member, pk=pk)
    form = StationForm(request.POST or None, garage=station.garage, station=station)
    if form.is_valid():
        stations.change(station, **form.cleaned_data)
        messages.success(request, f"{station} is changed.")
        return see(reverse("station_list"))
    return page(request, "garage/station_form.html", {"station": station}, form=form, menu="people")


@require_POST
@once
def station_delete(request: GarageRequest, pk: int) -> HttpResponse:
    station = editable(Station, request.member, pk=pk)
    try:
        stations.delete(station)
    except ProtectedError as kept:
        say_refused(request, _in_use(station, sorted(kept.protected_objects, key=lambda user: user.pk)))
        return see(reverse("station_edit", args=[pk]))
    messages.success(request, f"{station} is gone.")
    return back(request, reverse("station_list"))


def _in_use(station: Station, users: list[Model]) -> str:
    """What uses it, the first by name."""
    more = [f"{len(users) - NAMED} more"] if len(users) > NAMED else []
    named = listed_in_words([*map(str, users[:NAMED]), *more])
    return f"{station} is used by {named}: take it off them first."
