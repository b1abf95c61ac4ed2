"""The box that finds things by their names."""

from django.http import HttpResponse
from django.views.decorators.http import require_safe

from builds.find.pages.found import found_lines
from garage.http import GarageRequest, page

MOST_LETTERS = 100


@require_safe
def find_page(request: GarageRequest) -> HttpResponse:
    typed = request.GET.get("q", "").replace("\0", "")[:MOST_LETTERS].strip()
    context = {"typed": typed, "lines": found_lines(request.member, typed) if typed else []}
    return page(request, "builds/find/find_page.html", context)
