"""A part's own page: where it is and what can be done with it, who wants it, every move."""

from django.http import HttpResponse
from django.views.decorators.http import require_safe

from builds.plan.views.following import follows
from builds.shelf.pages.part_page import load_part
from garage import clock
from garage.access import refuse_working
from garage.http import GarageRequest, page, visible
from parts.models import Part


@require_safe
@follows
def part_page(request: GarageRequest, pk: int) -> HttpResponse:
    part = visible(Part, request.member, pk=pk)
    view = load_part(part, request.member, clock.now(), request.GET.get("page"))
    works = refuse_working(request.member) is None
    context = {"part": part, "view": view, "works": works}
    return page(request, "builds/shelf/part_page.html", context, menu="shelf")
