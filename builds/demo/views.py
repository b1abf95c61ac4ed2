"""The demo garage, for somebody whose own is still empty: entered, and left again."""

from django.contrib import messages
from django.http import HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_POST

from builds.demo.actions.garage import load_demo
from garage import clock
from garage.access import refuse_arranging
from garage.actions.garages import leave_invented
from garage.http import GarageRequest, garage_not_required, once, require, see
from garage.middleware import CHOSEN
from garage.models import Vehicle
from garage.refusals import refused_aloud

NOT_EMPTY = "There are cars in this garage already: the demo is for an empty one."


@garage_not_required
@require_POST
@once
def demo_load(request: GarageRequest) -> HttpResponse:
    zone = "UTC"
    if request.member is not None:
        require(refuse_arranging(request.member))
        require(NOT_EMPTY if Vehicle.objects.visible_to(request.member).exists() else None)
        zone = request.member.garage.time_zone
    garage = load_demo(at=clock.now(), time_zone=zone, owner=request.user)
    request.session[CHOSEN] = garage.pk
    messages.success(request, f"{garage} is open: look round, nothing in it is real.")
    return see(reverse("today"))


@require_POST
@once
def demo_leave(request: GarageRequest) -> HttpResponse:
    left = request.member.garage
    with refused_aloud(request):
        leave_invented(request.member, at=clock.now())
        request.session.pop(CHOSEN, None)
        messages.success(request, f"You have left {left}.")
    return see(reverse("today"))
