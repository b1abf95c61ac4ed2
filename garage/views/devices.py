"""A device signed out by itself: by whoever is signed in on it, or by the owner of his only garage."""

from django.contrib import messages
from django.http import HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_POST

from garage.access import refuse_identity
from garage.actions import devices, people
from garage.http import GarageRequest, back, editable, once, require, visible
from garage.logs import note
from garage.models import Device, Membership


@require_POST
@once
def device_end(request: GarageRequest, pk: int) -> HttpResponse:
    device = visible(Device, request.member, pk=pk)
    if device.person_id != request.user.pk:
        whose = editable(Membership, request.member, person=device.person, left_at=None)
        require(refuse_identity(whose, people.is_elsewhere(whose)))
    devices.end(device)
    note("signed out elsewhere", request, whose=device.person_id)
    messages.success(request, f"Signed out: {device}.")
    return back(request, reverse("account_page"))
