"""The cars entered for an event."""

from datetime import datetime

from django.contrib import messages
from django.http import HttpResponse
from django.urls import reverse

from builds.scrutineering.actions import entries, runs
from builds.scrutineering.forms.runs import RAN, WithdrawForm
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
            entries.enter(event, at=clock.now(), **form.cleaned_data)
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


@once
def entry_delete(request: GarageRequest, pk: int) -> HttpResponse:
    entry, at = editable(Entry, request.member, pk=pk), clock.now()
    event_url = reverse("event_page", args=[entry.event_id])
    # Who says that it ran withdraws nothing, whatever another said meanwhile.
    if entries.asks(entry, at) or request.POST.get("ran") == RAN:
        return _withdraw_begun(request, entry, event_url, at)
    if request.method == "POST":
        with refused_aloud(request):
            withdrawn = entries.take_out(entry, at=at)
            said = "is withdrawn; what was ticked for it stays" if withdrawn else "is not entered any more"
            messages.success(request, f"{entry.vehicle} {said}.")
    return see(event_url)


def _withdraw_begun(request: GarageRequest, entry: Entry, event_url: str, at: datetime) -> HttpResponse:
    """Its event has begun, so that leaving it out is to say first whether it ran there."""
    form = WithdrawForm(request.POST if request.method == "POST" else None)
    if form.is_valid():
        with refused_at(form):
            if form.cleaned_data["ran"] == RAN:
                runs.first_session(entry, by=request.member, at=at)
                messages.success(request, f"{entry.vehicle} has run, so it stays entered: look at these again.")
                return see(reverse("check_list", args=[entry.pk]))
            entries.stayed_still(entry, by=request.member, at=at)
            messages.success(
                request, f"{entry.vehicle} is withdrawn and did not run at {entry.event}: what running changes holds."
            )
            return see(event_url)
    context = {"entry": entry, "event": entry.event}
    return page(request, "builds/events/entry_delete.html", context, form=form, menu="events")
