"""Where a car's readings should be, and which of them it must have."""

from django.contrib import messages
from django.http import Http404, HttpResponse
from django.urls import reverse

from builds.readings.actions import readings
from builds.readings.engine.required import SENSIBLE
from builds.readings.engine.wanted_limits import wanted_limits
from builds.readings.facts.kinds import kinds_of
from builds.readings.facts.readings import readings_of
from builds.readings.forms.targets import LimitOffersForm, RequiredForm, TargetForm
from builds.readings.models.target import RequiredReadings, Target
from builds.readings.views.readings import known_kind
from garage import clock
from garage.access import refuse_arranging
from garage.http import GarageRequest, once, page, require, see, visible
from garage.models import Vehicle
from garage.refusals import refused_at


@once
def target_edit(request: GarageRequest, pk: int, key: str) -> HttpResponse:
    vehicle = visible(Vehicle, request.member, pk=pk)
    require(refuse_arranging(request.member))
    kind = known_kind(vehicle, key)
    if not kind.figures:
        raise Http404
    targets = Target.objects.on(vehicle).of(key)
    form = TargetForm(request.POST or None, kind=kind, garage=vehicle.garage, targets=targets)
    if form.is_valid():
        readings.set_targets(vehicle, kind, form.aims)
        messages.success(request, f"The limits of “{kind.label}” on {vehicle} are changed.")
        return see(reverse("reading_page", args=[pk, key]))
    context = {"vehicle": vehicle, "kind": kind}
    return page(request, "builds/readings/target_edit.html", context, form=form, menu="cars")


@once
def target_offers(request: GarageRequest, pk: int) -> HttpResponse:
    vehicle = visible(Vehicle, request.member, pk=pk)
    require(refuse_arranging(request.member))
    lines = readings_of(vehicle.garage, [vehicle], clock.now())[vehicle.pk].required_lines
    wanted = wanted_limits(lines)
    form = LimitOffersForm(request.POST or None, wanted=wanted, system=vehicle.garage.units)
    if form.is_valid():
        readings.accept_limits(vehicle, {want.kind.key: want.kind for want in wanted}, form.aims)
        messages.success(request, f"{vehicle} has its limits.")
        return see(reverse("reading_list", args=[pk]))
    context = {"vehicle": vehicle, "wanted": wanted}
    return page(request, "builds/readings/target_offers.html", context, form=form, menu="cars")


@once
def required_edit(request: GarageRequest, pk: int) -> HttpResponse:
    vehicle = visible(Vehicle, request.member, pk=pk)
    require(refuse_arranging(request.member))
    chosen = RequiredReadings.objects.filter(vehicle=vehicle).values_list("kinds", flat=True)
    kinds = kinds_of(vehicle.garage)
    form = RequiredForm(request.POST or None, kinds=kinds.values(), chosen=chosen.first())
    wanted = list(SENSIBLE) if request.POST.get("sensible") else None
    if wanted is None and form.is_valid():
        wanted = [key for key in kinds if key in form.cleaned_data["kinds"]]
    if wanted is not None:
        with refused_at(form, "kinds"):
            readings.choose_required(vehicle, wanted, by=request.member, at=clock.now())
            messages.success(request, f"{vehicle} must have {len(wanted)} readings to be fit to run.")
            return see(reverse("reading_list", args=[pk]))
    context = {"vehicle": vehicle, "sensible": [kinds[key].label for key in SENSIBLE]}
    return page(request, "builds/readings/required_edit.html", context, form=form, menu="cars")
