"""Cars: the key board, a car's page, and cars coming and going."""

from django.contrib import messages
from django.http import HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe

from builds.cars.actions import change, hang_up, let_go, stand
from builds.cars.facts import fleet_of
from builds.cars.pages.key_board import car_cards
from builds.cars.pages.vehicle import PARTS, vehicle_view
from builds.plan.views.following import follows
from builds.work.facts.left import minutes_left
from builds.work.facts.work import load_work
from garage import clock
from garage.access import refuse_arranging, refuse_work_on, refuse_working
from garage.actions import vehicles
from garage.engine.state_table import moved_on
from garage.forms.vehicles import VehicleForm
from garage.http import GarageRequest, back, editable, once, page, require, see, visible
from garage.models import Vehicle
from garage.refusals import refused_aloud, say_refused

ON_BOARD = {"here": "on the key board", "gone": "off the key board"}


@require_safe
def vehicle_list(request: GarageRequest) -> HttpResponse:
    fleet = fleet_of(request.member.garage, clock.now())
    cards = car_cards(fleet, minutes_left(fleet.garage, fleet.at))
    context = {
        "cars": cards,
        "key_board": cards,
        "gone": Vehicle.objects.visible_to(request.member).gone(),
        "arranges": refuse_arranging(request.member) is None,
    }
    return page(request, "builds/cars/vehicle_list.html", context, menu="cars")


@require_safe
@follows
def vehicle_page(request: GarageRequest, pk: int) -> HttpResponse:
    vehicle = visible(Vehicle, request.member, pk=pk)
    work = load_work(request.member.garage, clock.now())
    asked = request.GET.get("tab", "")
    tab = asked if asked in PARTS else "jobs"
    context = {
        "view": vehicle_view(vehicle, work),
        "tab": tab,
        **PARTS[tab](vehicle, request.member, work),
        "vehicle": vehicle,
        "states": [state for state in Vehicle.State if state != vehicle.state],
        "works": refuse_work_on(request.member, vehicle) is None,
        "looks": refuse_working(request.member) is None,
        "arranges": refuse_arranging(request.member) is None,
    }
    return page(request, "builds/cars/vehicle_page.html", context, menu="cars")


@once
def vehicle_add(request: GarageRequest) -> HttpResponse:
    require(refuse_arranging(request.member))
    form = VehicleForm(request.POST or None, garage=request.member.garage)
    if form.is_valid():
        member = request.member
        vehicle = hang_up(member.garage, by=member, at=clock.now(), **form.cleaned_data)
        messages.success(request, f"{vehicle} hangs on the key board.")
        return see(reverse("vehicle_page", args=[vehicle.pk]))
    return page(request, "builds/cars/vehicle_form.html", form=form, menu="cars")


@once
def vehicle_edit(request: GarageRequest, pk: int) -> HttpResponse:
    vehicle = editable(Vehicle, request.member, pk=pk)
    form = VehicleForm(request.POST or None, garage=vehicle.garage, vehicle=vehicle)
    if form.is_valid():
        change(vehicle, **form.cleaned_data)
        messages.success(request, f"{vehicle} is changed.")
        return see(reverse("vehicle_page", args=[pk]))
    return page(request, "builds/cars/vehicle_form.html", {"vehicle": vehicle}, form=form, menu="cars")


@require_POST
@once
def vehicle_state(request: GarageRequest, pk: int) -> HttpResponse:
    vehicle = visible(Vehicle, request.member, pk=pk)
    require(refuse_work_on(request.member, vehicle))  # whoever works on it may say how it stands
    state, stood = request.POST.get("state", ""), vehicle.state
    stale = moved_on(vehicle.name, dict(Vehicle.State.choices), request.POST.get("stood", stood), stood)
    if stale:
        say_refused(request, stale)
    elif state in Vehicle.State.values:
        with refused_aloud(request):
            stand(vehicle, state, at=clock.now())
            messages.success(request, f"{vehicle}: {vehicle.get_state_display()}.")
    return back(request, reverse("vehicle_page", args=[pk]))


@require_POST
@once
def vehicle_go(request: GarageRequest, pk: int) -> HttpResponse:
    vehicle = editable(Vehicle, request.member, pk=pk)
    stands = "gone" if vehicle.gone_at else "here"
    stale = moved_on(vehicle.name, ON_BOARD, request.POST.get("stood", stands), stands)
    if stale:
        say_refused(request, stale)
        return see(reverse("vehicle_page", args=[pk]))
    if vehicle.gone_at:
        vehicles.bring_back(vehicle)
        messages.success(request, f"{vehicle} is back on the key board.")
        return see(reverse("vehicle_page", args=[pk]))
    with refused_aloud(request):
        let_go(vehicle, at=clock.now())
        messages.success(request, f"{vehicle} is off the key board; its history stays.")
        return see(reverse("vehicle_list"))
    return see(reverse("vehicle_page", args=[pk]))
