"""The cars entered for an event."""

from django.contrib import messages
from django.http import HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_POST

from builds.scrutineering.actions import entries
from garage import clock
from garage.actions import events
from garage.forms.events import EntryForm
from garage.http import GarageRequest, editable, once, page, see
from garage.models import Entry, Event
from garage.refusals import refused_aloud, refused_at


@once
def entry_add(request: GarageRequest, pk: int) -> HttpResponse:
    event = editable(Event, request.member, pk=pk)
    form = EntryForm(request.POST or None, event=event)
    if form.is_valid():
        vehicle = form.cleaned_data["vehicle"]
        with refused_at(form, "vehicle"):
            events.enter(event, **form.cleaned_data)
            messages.success(request, f"{vehicle} is entered.")
            return see(reverse("event_page", args=[pk]))
    return page(request, "builds/events/entry_form.html", {"event": event}, form=form, menu="events")


@once
def entry_edit(request: GarageRequest, pk: int) -> HttpResponse:
    entry = editable(Entry, request.member, pk=pk)
    form = EntryForm(request.POST or None, event=entry.event, entry=entry)
    if form.is_valid():
        events.change_entry(entry, **form.cleaned_data)
        messages.success(request, f"The entry of {entry.vehicle} is changed.")
        return see(reverse("event_page", args=[entry.event_id]))
    context = {"event": entry.event, "entry": entry}
    return page(request, "builds/events/entry_form.html", context, form=form, menu="events")


@require_POST
@once
def entry_delete(request: GarageRequest, pk: int) -> HttpResponse:
    entry = editable(Entry, request.member, pk=pk)
    with refused_aloud(request):
        withdrawn = entries.take_out(entry, at=clock.now())
        said = "is withdrawn; what was ticked for it stays" if withdrawn else "is not entered any more"
        messages.success(request, f"{entry.vehicle} {said}.")
    return see(reverse("event_page", args=[entry.event_id]))
