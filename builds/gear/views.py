"""Gear with dates: what runs out first, one piece, an event's rules, what a car must have."""

from zoneinfo import ZoneInfo

from django.contrib import messages
from django.http import HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe

from builds.gear.actions.life import plan_renewal, set_life
from builds.gear.actions.pieces import add_piece, change_piece, retire_piece, use_again
from builds.gear.forms import GearLifeForm
from builds.gear.models import UseLife
from builds.gear.pages import all_gear, gear_view, work_words
from builds.work.models.job import Job
from garage import clock
from garage.access import refuse_arranging, refuse_work_on, refuse_working
from garage.actions import gear as actions
from garage.actions.gear import rules_of_organiser
from garage.engine.gear import CAUTION, STANDARDS
from garage.forms.gear import GearForm, GearReasonForm, GearRulesForm, NeededGearForm, StruckForm
from garage.http import GarageRequest, editable, once, page, require, see, visible
from garage.models import Event, Gear, NeededGear, Vehicle
from garage.refusals import refused_aloud, refused_at

CHANGES_SHOWN = 20


def _form(request: GarageRequest, gear: Gear | None = None) -> GearForm:
    garage = request.member.garage
    today = clock.now().astimezone(ZoneInfo(garage.time_zone)).date()
    car = request.GET.get("car", "")[:20]
    return GearForm(request.POST or None, by=request.member, today=today, gear=gear, car=car)


def _say(request: GarageRequest, what: str, work: list[Job]) -> None:
    messages.success(request, " ".join([what, *work_words(work)]))


@require_safe
def gear_list(request: GarageRequest) -> HttpResponse:
    context = {
        "lines": all_gear(request.member.garage, clock.now()),
        "retired": Gear.objects.visible_to(request.member).retired()[:50],
        "works": refuse_working(request.member) is None,
        "caution": CAUTION,
    }
    return page(request, "builds/gear/gear_list.html", context, menu="cars")


@require_safe
def gear_page(request: GarageRequest, pk: int) -> HttpResponse:
    gear = visible(Gear, request.member, pk=pk)
    context = {
        "gear": gear,
        "view": gear_view(gear, clock.now()),
        "standard": STANDARDS.get(gear.standard),
        "changes": gear.changes.select_related("by__person")[:CHANGES_SHOWN],
        "works": refuse_work_on(request.member, gear.vehicle) is None,
        "owns": refuse_arranging(request.member) is None,
        "caution": CAUTION,
    }
    return page(request, "builds/gear/gear_page.html", context, menu="cars")


@once
def gear_add(request: GarageRequest) -> HttpResponse:
    require(refuse_working(request.member))
    form = _form(request)
    if form.is_valid():
        with refused_at(form):
            gear, work = add_piece(request.member.garage, by=request.member, at=clock.now(), **form.row())
            _say(request, f"{gear} is on record.", work)
            return see(reverse("gear_page", args=[gear.pk]))
    return page(request, "builds/gear/gear_form.html", {"caution": CAUTION}, form=form, menu="cars")


@once
def gear_edit(request: GarageRequest, pk: int) -> HttpResponse:
    gear = editable(Gear, request.member, pk=pk)
    form = _form(request, gear)
    if form.is_valid():
        with refused_at(form):
            work = change_piece(gear, by=request.member, at=clock.now(), **form.row())
            _say(request, f"{gear} is changed.", work)
            return see(reverse("gear_page", args=[pk]))
    context = {"gear": gear, "caution": CAUTION}
    return page(request, "builds/gear/gear_form.html", context, form=form, menu="cars")


@once
def gear_retire(request: GarageRequest, pk: int) -> HttpResponse:
    gear = editable(Gear, request.member, pk=pk)
    if "again" in request.POST:
        with refused_aloud(request):
            work = use_again(gear, by=request.member, at=clock.now())
            _say(request, f"{gear} is in use again.", work)
        return see(reverse("gear_page", args=[pk]))
    form = GearReasonForm(request.POST if request.method == "POST" else None)
    if form.is_valid() and gear.retired_at:
        form.add_error(None, f"{gear} is out of use already: {gear.retired_because}")
    elif form.is_valid():
        with refused_at(form):
            work = retire_piece(gear, because=form.cleaned_data["because"], by=request.member, at=clock.now())
            _say(request, f"{gear} is out of use; its history stays.", work)
            return see(reverse("gear_list"))
    return page(request, "builds/gear/gear_retire.html", {"gear": gear}, form=form, menu="cars")


@once
def gear_strike(request: GarageRequest, pk: int) -> HttpResponse:
    gear = editable(Gear, request.member, pk=pk)
    form = StruckForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        actions.strike(gear, note=form.cleaned_data["note"], at=clock.now())
        messages.success(request, f"{gear} counts as struck.")
        return see(reverse("gear_page", args=[pk]))
    return page(request, "builds/gear/gear_strike.html", {"gear": gear}, form=form, menu="cars")


@once
def gear_life(request: GarageRequest, pk: int) -> HttpResponse:
    gear = editable(Gear, request.member, pk=pk)
    form = GearLifeForm(request.POST or None, life=UseLife.objects.filter(gear=gear).first())
    if form.is_valid():
        with refused_at(form):
            set_life(gear, by=request.member, at=clock.now(), **form.lasts())
            messages.success(request, f"How long {gear} lasts is kept.")
            return see(reverse("gear_page", args=[pk]))
    return page(request, "builds/gear/gear_life.html", {"gear": gear}, form=form, menu="cars")


@require_POST
@once
def gear_renew(request: GarageRequest, pk: int) -> HttpResponse:
    gear = editable(Gear, request.member, pk=pk)
    with refused_aloud(request):
        job = plan_renewal(gear, by=request.member, at=clock.now())
        messages.success(request, f"“{job}” is written down: {gear} counts as new once it is finished.")
        return see(reverse("job_page", args=[job.pk]))
    return see(reverse("gear_page", args=[pk]))


@once
def gear_pass(request: GarageRequest, pk: int) -> HttpResponse:
    gear = visible(Gear, request.member, pk=pk)
    require(refuse_arranging(request.member))
    form = GearReasonForm(request.POST or None)
    if form.is_valid():
        because = form.cleaned_data["because"]
        with refused_at(form, "because"):
            actions.let_pass(gear, because=because, by=request.member, at=clock.now())
            messages.success(request, f"{gear} counts again: {because}")
            return see(reverse("gear_page", args=[pk]))
    return page(request, "builds/gear/gear_pass.html", {"gear": gear}, form=form, menu="cars")


@once
def gear_rules(request: GarageRequest, pk: int) -> HttpResponse:
    event = editable(Event, request.member, pk=pk)
    if "copy" in request.POST:
        if actions.copy_rules(event):
            messages.success(request, "Taken over: check them against this year's rules.")
        return see(reverse("gear_rules", args=[pk]))
    form = GearRulesForm(request.POST or None, event=event)
    if form.is_valid():
        actions.set_rules(event, form.rules)
        messages.success(request, f"{event} judges gear so.")
        return see(reverse("event_page", args=[pk]))
    context = {"event": event, "earlier": rules_of_organiser(event), "caution": CAUTION}
    return page(request, "builds/gear/gear_rules.html", context, form=form, menu="events")


@once
def gear_needed(request: GarageRequest, pk: int) -> HttpResponse:
    vehicle = editable(Vehicle, request.member, pk=pk)
    if "usual" in request.POST:
        actions.need_usual(vehicle, by=request.member, at=clock.now())
        messages.success(request, f"{vehicle} must have the usual gear.")
        return see(reverse("vehicle_page", args=[pk]))
    needed = NeededGear.objects.filter(vehicle=vehicle).first()
    initial = {"kinds": needed.kinds} if needed else None
    form = NeededGearForm(request.POST or None, initial=initial)
    if request.method == "POST" and form.is_valid():
        kinds = form.cleaned_data["kinds"]
        actions.need(vehicle, kinds=kinds, by=request.member, at=clock.now())
        messages.success(request, f"{vehicle}: what it must have is kept.")
        return see(reverse("vehicle_page", args=[pk]))
    context = {"vehicle": vehicle, "caution": CAUTION}
    return page(request, "builds/gear/gear_needed.html", context, form=form, menu="cars")
