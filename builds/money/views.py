"""What it cost: the fleet, a car, an event; for the owner alone."""

from django.contrib import messages
from django.http import HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe

from builds.money.actions import set_budget
from builds.money.forms import BudgetForm
from builds.money.pages import car_view, event_view, fleet_view
from garage import clock
from garage.access import refuse_costs
from garage.actions import garages
from garage.http import GarageRequest, back, once, page, require, see, visible
from garage.models import Event, Vehicle


@require_safe
def money_page(request: GarageRequest) -> HttpResponse:
    require(refuse_costs(request.member))
    view = fleet_view(request.member.garage, clock.now())
    return page(request, "builds/money/money_page.html", {"view": view}, menu="cars")


@once
def money_vehicle(request: GarageRequest, pk: int) -> HttpResponse:
    vehicle = visible(Vehicle, request.member, pk=pk)
    require(refuse_costs(request.member))
    garage = request.member.garage
    view = car_view(vehicle, garage, clock.now(), request.GET)
    form = BudgetForm(request.POST or None, garage=garage, budget=view.budget)
    if form.is_valid():
        return _set(request, vehicle, form.cleaned_data["minor"], "money_vehicle")
    context = {"vehicle": vehicle, "view": view}
    return page(request, "builds/money/money_vehicle.html", context, form=form, menu="cars")


@once
def money_event(request: GarageRequest, pk: int) -> HttpResponse:
    event = visible(Event, request.member, pk=pk)
    require(refuse_costs(request.member))
    garage = request.member.garage
    view = event_view(event, garage, clock.now())
    form = BudgetForm(request.POST or None, garage=garage, budget=view.budget)
    if form.is_valid():
        return _set(request, event, form.cleaned_data["minor"], "money_event")
    context = {"event": event, "view": view}
    return page(request, "builds/money/money_event.html", context, form=form, menu="events")


def _set(request: GarageRequest, thing: Vehicle | Event, minor: int | None, name: str) -> HttpResponse:
    set_budget(thing, minor)
    said = f"{thing} has no budget now." if minor is None else f"The budget of {thing} is set."
    messages.success(request, said)
    return see(reverse(name, args=[thing.pk]))


@require_POST
@once
def money_used(request: GarageRequest) -> HttpResponse:
    require(refuse_costs(request.member))
    counts = request.POST.get("count") == "yes"
    garages.let_used_cost(request.member.garage, counts)
    said = "at what they were bought for" if counts else "at nothing"
    messages.success(request, f"Used parts count {said}.")
    return back(request, reverse("money_page"))
