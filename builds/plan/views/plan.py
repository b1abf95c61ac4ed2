"""The plan: looked at, and a better one looked for."""

from datetime import date

from django.http import HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe

from builds.plan.actions import searches
from builds.plan.forms import PlanForm
from builds.plan.pages.wall import load_plan_page
from builds.plan.views.following import follows
from garage import clock
from garage.access import refuse_working
from garage.http import GarageRequest, once, page, require, see
from garage.limits import tries_plans
from garage.refusals import refused_at


def _day(asked: str) -> date | None:
    """The day that an address asks for; None for anything that is none."""
    try:
        return date.fromisoformat(asked)
    except ValueError:
        return None


def _page(request: GarageRequest, form: PlanForm) -> HttpResponse:
    day = _day(request.GET.get("day", ""))
    context = {
        "view": load_plan_page(request.member.garage, clock.now(), day, request.member),
        "works": refuse_working(request.member) is None,
    }
    return page(request, "builds/plan/plan_page.html", context, menu="plan", form=form)


@require_safe
@follows
def plan_page(request: GarageRequest) -> HttpResponse:
    return _page(request, PlanForm())


@tries_plans
@require_POST
@once
def plan_search(request: GarageRequest) -> HttpResponse:
    require(refuse_working(request.member))
    form = PlanForm(request.POST)
    if form.is_valid():
        garage, seconds = request.member.garage, form.cleaned_data["seconds"]
        with refused_at(form):
            searches.start(garage, by=request.member, at=clock.now(), seconds=seconds, now=clock.now)
            return see(reverse("plan_page"))
    return _page(request, form)
