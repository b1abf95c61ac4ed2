"""The first page of somebody who is in no garage yet."""

from django.contrib import messages
from django.http import Http404, HttpResponse
from django.urls import reverse

from builds.first_run.actions import open_garage
from builds.first_run.forms import FirstRunForm
from builds.jobs.pages.pasted import first_list
from garage import clock
from garage.http import GarageRequest, garage_not_required, once, page, see
from garage.models import Membership
from garage.refusals import refused_at


@garage_not_required
@once
def first_run(request: GarageRequest) -> HttpResponse:
    if Membership.objects.of(request.user).real().exists():
        raise Http404
    form = FirstRunForm(request.POST or None, owner=request.user, at=clock.now())
    if form.is_valid():
        with refused_at(form):
            member = open_garage(request.user, at=clock.now(), **form.told())
            messages.success(request, f"{member.garage} is open.")
            return see(_next(member))
    return page(request, "builds/first_run/first_run.html", form=form)


def _next(member: Membership) -> str:
    """The list of the first car's jobs, and the plan after it; else what is still to be said."""
    car = member.garage.vehicles.first()
    return first_list(car) if car else reverse("today")
