"""Looking for what fits: what does, what does not and why, and what nobody knows."""

from django.http import HttpResponse
from django.views.decorators.http import require_safe

from garage.http import GarageRequest, page
from parts.forms.parts import SearchForm
from parts.pages.fit import load_fit_page


@require_safe
def fit_search(request: GarageRequest) -> HttpResponse:
    garage = request.member.garage
    form = SearchForm(request.GET, garage=garage)
    text, _, _ = form.asked()
    context = {"view": load_fit_page(garage, text), "search": form, "text": text}
    return page(request, "parts/fit_search.html", context, menu="shelf")
