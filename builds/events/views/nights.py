"""Hours at an event in which cars are repaired overnight."""

from django.contrib import messages
from django.http import HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_POST

from garage.actions import nights
from garage.forms.nights import NightForm
from garage.http import GarageRequest, editable, once, page, see
from garage.models import Event, Night


@once
def night_add(request: GarageRequest, pk: int) -> HttpResponse:
    event = editable(Event, request.member, pk=pk)
    form = NightForm(request.POST or None, event=event)
    if form.is_valid():
        nights.add(event, **form.cleaned_data)
        messages.success(request, "The hours overnight are written down: say which jobs are to be done then.")
        return see(reverse("event_page", args=[pk]))
    return page(request, "builds/events/night_form.html", {"event": event}, form=form, menu="events")


@once
def night_edit(request: GarageRequest, pk: int) -> HttpResponse:
    night = editable(Night, request.member, pk=pk)
    form = NightForm(request.POST or None, event=night.event, night=night)
    if form.is_valid():
        nights.change(night, **form.cleaned_data)
        messages.success(request, "The hours overnight are changed.")
        return see(reverse("event_page", args=[night.event_id]))
    context = {"event": night.event, "night": night}
    return page(request, "builds/events/night_form.html", context, form=form, menu="events")


@require_POST
@once
def night_delete(request: GarageRequest, pk: int) -> HttpResponse:
    night = editable(Night, request.member, pk=pk)
    nights.remove(night)
    messages.success(request, "The hours overnight are deleted: their jobs are to be done at home.")
    return see(reverse("event_page", args=[night.event_id]))
