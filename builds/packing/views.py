"""Pack lists: made for an event, ticked as things go into the van, added to."""

from django.contrib import messages
from django.http import HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe

from builds.packing import actions as packing
from builds.packing import sheet
from builds.packing.engine.pack_states import LABELS, PACK_STATES
from builds.packing.forms import PackAddForm
from builds.packing.models import PackItem, PackList
from builds.packing.pages.pack_list import pack_view
from builds.packing.pages.sheet import pack_sheet_rows
from garage import clock
from garage.access import refuse_working
from garage.http import GarageRequest, back, editable, once, page, pdf, require, see, visible
from garage.models import Event
from garage.refusals import refused_aloud, refused_at
from garage.tap_key import tap_key


@require_safe
def pack_list(request: GarageRequest, pk: int) -> HttpResponse:
    event = visible(Event, request.member, pk=pk)
    context = {"view": pack_view(event), "works": refuse_working(request.member) is None}
    return page(request, "builds/packing/pack_list.html", context, menu="events")


@require_safe
def pack_sheet(request: GarageRequest, pk: int) -> HttpResponse:
    event = visible(Event, request.member, pk=pk)
    return pdf(sheet.pack_sheet(pack_sheet_rows(event, clock.now())), f"pack {event}")


@require_POST
@once
def pack_make(request: GarageRequest, pk: int) -> HttpResponse:
    event = visible(Event, request.member, pk=pk)
    require(refuse_working(request.member))
    made = packing.make(event, by=request.member, at=clock.now())
    messages.success(request, f"{made.items.count()} lines to pack, for {made.runs} runs.")
    return see(reverse("pack_list", args=[pk]))


@once
def pack_add(request: GarageRequest, pk: int) -> HttpResponse:
    packlist = editable(PackList, request.member, event=pk)
    form = PackAddForm(request.POST or None, event=packlist.event)
    if form.is_valid():
        with refused_at(form):
            added = packing.add(packlist, **form.cleaned_data)
            messages.success(request, f"{added} goes along.")
            return see(reverse("pack_list", args=[pk]))
    context = {"event": packlist.event}
    return page(request, "builds/packing/pack_add.html", context, form=form, menu="events")


@require_POST
@once
def pack_tick(request: GarageRequest, pk: int) -> HttpResponse:
    item = editable(PackItem, request.member, pk=pk)
    step = request.POST.get("step", "")
    if step in PACK_STATES.steps:
        with refused_aloud(request):
            packing.take(item, step, by=request.member, at=clock.now(), key=tap_key(request))
            messages.success(request, f"{item}: {LABELS[PACK_STATES.after(step)]}.")
    return back(request, reverse("pack_list", args=[item.packlist.event_id]))


@require_POST
@once
def pack_remove(request: GarageRequest, pk: int) -> HttpResponse:
    item = editable(PackItem, request.member, pk=pk)
    with refused_aloud(request):
        packing.remove(item)
        messages.success(request, f"{item} is off the list.")
    return see(reverse("pack_list", args=[item.packlist.event_id]))
