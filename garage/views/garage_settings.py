"""The garage itself: its name, time zone, units and paper; and changing to another."""

from copy import copy

from django.contrib import messages
from django.http import Http404, HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_POST

from garage.access import refuse_arranging
from garage.forms.garages import GarageForm
from garage.http import GarageRequest, once, page, require, see
from garage.middleware import CHOSEN


@once
def garage_settings(request: GarageRequest) -> HttpResponse:
    refusal = refuse_arranging(request.member)
    if refusal and request.method != "POST":
        return page(request, "garage/garage_settings.html", menu="garage")
    require(refusal)
    # A copy: a form writes what was typed into its row even when it refuses it.
    form = GarageForm(request.POST or None, instance=copy(request.member.garage))
    if form.is_valid():
        form.save()
        messages.success(request, "The garage is changed.")
        return see(reverse("garage_settings"))
    return page(request, "garage/garage_settings.html", form=form, menu="garage")


@require_POST
@once
def garage_choose(request: GarageRequest, pk: int) -> HttpResponse:
    chosen = next((garage for garage in request.garages if garage.pk == pk), None)
    if chosen is None:
        raise Http404
    request.session[CHOSEN] = pk
    messages.success(request, f"You are in {chosen} now.")
    return see(reverse("today"))
