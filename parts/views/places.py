"""Places: shelves, bins, the van, people who have something."""

from django.contrib import messages
from django.core.paginator import Paginator
from django.http import HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_safe

from garage.access import refuse_working
from garage.http import GarageRequest, editable, once, ours, page, require, see, visible
from garage.refusals import refused_at
from parts.actions import parts
from parts.facts.search import matching
from parts.forms.places import OWN_KINDS, PlaceForm
from parts.models import Place
from parts.pages.rows import rows_of

A_PAGE = 50


@require_safe
def place_list(request: GarageRequest) -> HttpResponse:
    rows = Place.objects.visible_to(request.member).inside().walking_order().counted()
    context = {"places": rows, "works": refuse_working(request.member) is None}
    return page(request, "parts/place_list.html", context, menu="shelf")


@require_safe
def place_page(request: GarageRequest, pk: int) -> HttpResponse:
    spot = visible(Place, request.member, pk=pk)
    garage = request.member.garage
    shown = Paginator(matching(garage, "", spot), A_PAGE).get_page(request.GET.get("page"))
    context = {
        "spot": spot,
        "rows": rows_of(shown.object_list, garage),
        "page_obj": shown,
        "own": spot.kind in OWN_KINDS,
        "works": refuse_working(request.member) is None,
    }
    return page(request, "parts/place_page.html", context, menu="shelf")


@once
def place_add(request: GarageRequest) -> HttpResponse:
    require(refuse_working(request.member))
    here = ours(request, request.POST.get("next") or request.GET.get("next", ""), reverse("place_list"))
    form = PlaceForm(request.POST or None)
    if form.is_valid():
        with refused_at(form, "name"):
            spot = parts.add_place(request.member.garage, **form.cleaned_data)
            messages.success(request, f"{spot} is there.")
            return see(here)
    return page(request, "parts/place_form.html", {"here": here}, form=form, menu="shelf")


@once
def place_edit(request: GarageRequest, pk: int) -> HttpResponse:
    spot = editable(Place, request.member, pk=pk, kind__in=OWN_KINDS)
    form = PlaceForm(request.POST or None, place=spot)
    if form.is_valid():
        with refused_at(form, "name"):
            parts.change_place(spot, **form.cleaned_data)
            messages.success(request, f"{spot} is changed.")
            return see(reverse("place_page", args=[pk]))
    return page(request, "parts/place_form.html", {"spot": spot}, form=form, menu="shelf")
