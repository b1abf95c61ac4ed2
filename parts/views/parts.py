"""Parts on the shelf: looked for, written down, changed; where a label leads."""

from django.contrib import messages
from django.core.paginator import Paginator
from django.http import HttpResponse
from django.urls import reverse
from django.utils.http import urlencode
from django.views.decorators.http import require_safe

from garage import clock
from garage.access import refuse_working
from garage.http import GarageRequest, editable, once, page, see, visible
from garage.refusals import refused_at
from parts.actions import parts
from parts.engine.fit import wish
from parts.facts.search import by_place, letters, matching, under
from parts.forms.parts import PartForm, SearchForm
from parts.models import Part, Place
from parts.pages.rows import places_of, rows_of

A_PAGE = 100


@require_safe
def part_list(request: GarageRequest) -> HttpResponse:
    garage = request.member.garage
    form = SearchForm(request.GET, garage=garage)
    asked = form.asked()
    wants = wish(asked[0]).wants
    letter = request.GET.get("letter", "").replace("\0", "")[:1]
    matched = under(matching(garage, *asked), letter)
    whole = not (letter or any(asked))
    shown = Paginator(by_place(matched) if whole else matched, A_PAGE).get_page(request.GET.get("page"))
    kept = {name: request.GET[name] for name in (*form.fields, "letter") if request.GET.get(name)}
    rows = rows_of(shown.object_list, garage, wants)
    context = {
        "rows": rows,
        "places": places_of(rows) if whole else [],
        "letters": letters(garage),
        "letter": letter.upper(),
        "wants": wants,
        "page_obj": shown,
        "query": f"{urlencode(kept)}&" if kept else "",
        "low": Part.objects.visible_to(request.member).kept().low().count(),
        "works": refuse_working(request.member) is None,
        "search": form,
        "asked": not whole,
    }
    return page(request, "parts/part_list.html", context, menu="shelf")


@require_safe
def code_page(request: GarageRequest, code: str) -> HttpResponse:
    part = Part.objects.visible_to(request.member).filter(code=code.upper()).first()
    if part:
        return see(reverse("part_page", args=[part.pk]))
    return see(reverse("place_page", args=[visible(Place, request.member, code=code.upper()).pk]))


@once
def part_edit(request: GarageRequest, pk: int) -> HttpResponse:
    part = editable(Part, request.member, pk=pk)
    form = PartForm(request.POST or None, member=request.member, part=part)
    if form.is_valid():
        with refused_at(form):
            parts.change(part, by=request.member, at=clock.now(), **form.cleaned_data)
            messages.success(request, f"{part} is changed.")
            return see(reverse("part_page", args=[pk]))
    return page(request, "parts/part_edit.html", {"part": part}, form=form, menu="shelf")
