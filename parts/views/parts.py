"""Parts on the shelf: looked for, written down, changed, read."""

from django.contrib import messages
from django.core.paginator import Paginator
from django.http import HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_safe

from garage import clock
from garage.access import refuse_working
from garage.actions.refused import Refused
from garage.engine.systems import SYSTEM_LABELS
from garage.http import GarageRequest, editable, once, page, require, see, visible
from parts.actions import parts
from parts.actions.stock import UNDO_FOR
from parts.forms.parts import PartForm, SearchForm
from parts.loaders.shelf import found, history, rows_of
from parts.models import Part, Place

A_PAGE = 60


@require_safe
def part_list(request: GarageRequest) -> HttpResponse:
    garage = request.member.garage
    form = SearchForm(request.GET or None, garage=garage)
    words, place = "", None
    if form.is_valid():
        words, place = form.cleaned_data["q"], form.cleaned_data["place"]
    pages = Paginator(found(garage, words, place), A_PAGE)
    shown = pages.get_page(request.GET.get("page"))
    context = {
        "rows": rows_of(shown.object_list, garage),
        "page_obj": shown,
        "query": f"q={request.GET.get('q', '')}&" if words else "",
        "low": Part.objects.visible_to(request.member).kept().low(),
        "works": refuse_working(request.member) is None,
        "search": form,
        "words": words,
    }
    return page(request, "parts/part_list.html", context, place="shelf")


@require_safe
def part_page(request: GarageRequest, pk: int) -> HttpResponse:
    part = visible(Part, request.member, pk=pk)
    at = clock.now()
    context = {
        "part": part,
        "row": rows_of([part], request.member.garage)[0],
        "systems": [SYSTEM_LABELS[slug] for slug in part.systems if slug in SYSTEM_LABELS],
        "moves": history(part)[:100],
        "undo_from": at - UNDO_FOR,
        "works": refuse_working(request.member) is None,
    }
    return page(request, "parts/part_page.html", context, place="shelf")


@require_safe
def code_page(request: GarageRequest, code: str) -> HttpResponse:
    part = Part.objects.visible_to(request.member).filter(code=code.upper()).first()
    if part:
        return see(reverse("part_page", args=[part.pk]))
    return see(reverse("place_page", args=[visible(Place, request.member, code=code.upper()).pk]))


@once
def part_add(request: GarageRequest) -> HttpResponse:
    require(refuse_working(request.member))
    form = PartForm(request.POST or None, systems=list(SYSTEM_LABELS.items()))
    if form.is_valid():
        part = parts.add(request.member.garage, at=clock.now(), **form.cleaned_data)
        messages.success(request, f"{part} is written down: receive it where it lies.")
        return see(reverse("part_move", args=[part.pk, "receive"]))
    return page(request, "parts/part_form.html", form=form, place="shelf")


@once
def part_edit(request: GarageRequest, pk: int) -> HttpResponse:
    part = editable(Part, request.member, pk=pk)
    form = PartForm(request.POST or None, systems=list(SYSTEM_LABELS.items()), part=part)
    if form.is_valid():
        try:
            parts.change(part, **form.cleaned_data)
        except Refused as refused:
            form.add_error("single", str(refused))
        else:
            messages.success(request, f"{part} is changed.")
            return see(reverse("part_page", args=[pk]))
    return page(request, "parts/part_form.html", {"part": part}, form=form, place="shelf")
