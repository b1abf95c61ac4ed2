"""A search for a better plan: how far it is, and the stop button."""

from django.http import HttpResponse
from django.template.loader import render_to_string
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe

from builds.plan.actions import searches
from builds.plan.models import Search
from builds.plan.pages.search import search_view
from garage import clock
from garage.http import GarageRequest, editable, once, see, visible


@require_safe
def plan_progress(request: GarageRequest, pk: int) -> HttpResponse:
    search = visible(Search, request.member, pk=pk)
    if not request.htmx:
        return see(reverse("plan_page"))
    view = search_view(search, clock.now())
    return HttpResponse(render_to_string("builds/plan/plan_progress.html", {"search": view}))


@require_POST
@once
def plan_stop(request: GarageRequest, pk: int) -> HttpResponse:
    searches.ask_to_stop(editable(Search, request.member, pk=pk))
    return see(reverse("plan_page"))
