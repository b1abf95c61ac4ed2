"""Labels: which, on which sheet; and the file to print."""

from django.http import HttpResponse
from django.views.decorators.http import require_safe

from garage.http import GarageRequest, page, pdf
from parts.engine.label_grid import BY_SLUG
from parts.forms.labels import LabelForm
from parts.pages.labels import MOST
from parts.sheets.labels import calibration, labels


@require_safe
def label_list(request: GarageRequest) -> HttpResponse:
    return _form(request, LabelForm(request.GET, garage=request.member.garage))


@require_safe
def label_sheet(request: GarageRequest) -> HttpResponse:
    form = LabelForm(request.GET, garage=request.member.garage)
    if not form.is_valid():
        return _form(request, form, status=422)
    asked = form.cleaned_data
    grid = BY_SLUG[asked["sheet"]]
    shift = ((asked["right"] or 0) / 1000, (asked["down"] or 0) / 1000)
    if asked["test"]:
        return pdf(calibration(grid, shift), f"calibration {grid.slug}")
    return pdf(labels(asked["labels"], grid, asked["start"] or 1, shift), "labels")


def _form(request: GarageRequest, form: LabelForm, status: int = 200) -> HttpResponse:
    many = form.offer()
    context = {"form": form, "many": many, "most": MOST, "wrong": status == 422}
    return page(request, "parts/label_list.html", context, menu="shelf", status=status)
