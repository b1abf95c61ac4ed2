"""All that cars are owed, by car and by age; and on paper."""

from django.http import HttpResponse
from django.views.decorators.http import require_safe

from builds.shelf import sheet
from builds.shelf.pages.owed import by_car, owed_lines
from builds.shelf.pages.owed_sheet import owed_sheet_rows
from garage import clock
from garage.access import refuse_working
from garage.http import GarageRequest, page, pdf


@require_safe
def owed_list(request: GarageRequest) -> HttpResponse:
    lines = owed_lines(request.member.garage, clock.now())
    context = {
        "lines": lines,
        "cars": by_car(lines),
        "by_age": request.GET.get("by") == "age",
        "works": refuse_working(request.member) is None,
    }
    return page(request, "builds/shelf/owed_list.html", context, menu="shelf")


@require_safe
def owed_sheet(request: GarageRequest) -> HttpResponse:
    return pdf(sheet.owed_sheet(owed_sheet_rows(request.member.garage, clock.now())), "owed")
