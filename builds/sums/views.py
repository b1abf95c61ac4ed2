"""Bench sums: the list, and each sum's page."""

from django.http import Http404, HttpResponse
from django.views.decorators.http import require_safe

from builds.bench.catalogue import sum_called
from builds.sums.forms import sum_form
from builds.sums.pages import sum_view, sums_found
from garage.http import GarageRequest, page


@require_safe
def sum_list(request: GarageRequest) -> HttpResponse:
    wanted = request.GET.get("find", "")[:100]
    context = {"topics": sums_found(wanted), "wanted": wanted}
    return page(request, "builds/sums/sum_list.html", context, place="sums")


@require_safe
def sum_page(request: GarageRequest, slug: str) -> HttpResponse:
    asked = sum_called(slug)
    if asked is None:
        raise Http404
    system = request.member.garage.units
    form = sum_form(asked, request.GET, system)
    view = sum_view(form.worked if form.is_valid() else None, system)
    return page(request, "builds/sums/sum_page.html", {"view": view, "sum": asked}, place="sums", form=form)
