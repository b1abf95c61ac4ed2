"""The first page of somebody who is in no garage yet."""

from django.contrib import messages
from django.http import Http404, HttpResponse
from django.urls import reverse

from garage.actions import garages
from garage.forms.garages import OpeningForm
from garage.http import GarageRequest, garage_not_required, once, page, see
from garage.models import Membership
from garage.refusals import refused_at


@garage_not_required
@once
def first_run(request: GarageRequest) -> HttpResponse:
    if Membership.objects.of(request.user).real().exists():
        raise Http404
    form = OpeningForm(request.POST or None, owner=request.user.name)
    if form.is_valid():
        with refused_at(form):
            told = dict(form.cleaned_data)
            garage = garages.found(request.user, called=told.pop("owner"), **told)
            messages.success(request, f"{garage} is open.")
            return see(reverse("today"))
    return page(request, "garage/first_run.html", form=form)
