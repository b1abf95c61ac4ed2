"""What organisers look at: their own lists, pasted once and used for each of their events."""

from django.contrib import messages
from django.http import HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe

from builds.scrutineering.actions import check_lists
from builds.scrutineering.forms.checks import OrganiserForm
from builds.scrutineering.models.check import OrganiserList
from builds.scrutineering.pages.organisers import organiser_lines
from garage import clock
from garage.access import refuse_arranging
from garage.http import GarageRequest, editable, once, page, require, see
from garage.refusals import refused_at


@require_safe
def organiser_list(request: GarageRequest) -> HttpResponse:
    context = {
        "lines": organiser_lines(request.member.garage),
        "arranges": refuse_arranging(request.member) is None,
    }
    return page(request, "builds/scrutineering/organiser_list.html", context, menu="events")


@once
def organiser_add(request: GarageRequest) -> HttpResponse:
    require(refuse_arranging(request.member))
    return _kept(request, None)


@once
def organiser_edit(request: GarageRequest, pk: int) -> HttpResponse:
    return _kept(request, editable(OrganiserList, request.member, pk=pk))


def _kept(request: GarageRequest, own: OrganiserList | None) -> HttpResponse:
    name = request.GET.get("name", "")[:80]
    form = OrganiserForm(request.POST or None, own=own, **({} if own else {"initial": {"name": name}}))
    if form.is_valid():
        garage = request.member.garage
        with refused_at(form):
            kept = check_lists.keep_organiser(garage, at=clock.now(), own=own, **form.cleaned_data)
            messages.success(request, f"The list of {kept} is kept: bring the cars' lists up to date.")
            return see(reverse("organiser_list"))
    return page(request, "builds/scrutineering/organiser_form.html", {"own": own}, form=form, menu="events")


@require_POST
@once
def organiser_delete(request: GarageRequest, pk: int) -> HttpResponse:
    own = editable(OrganiserList, request.member, pk=pk)
    own.delete()
    messages.success(request, f"The list of {own} is gone; lists made from it stay.")
    return see(reverse("organiser_list"))
