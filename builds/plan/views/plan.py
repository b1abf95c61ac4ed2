"""The plan: looked at, made anew, and an offered one taken."""

from django.contrib import messages
from django.http import HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe

from builds.plan.actions import plans, searches
from builds.plan.forms import PlanForm
from builds.plan.models import Plan
from builds.plan.pages.wall import load_plan_page
from garage import clock
from garage.access import refuse_working
from garage.actions.refused import Refused
from garage.http import GarageRequest, editable, once, page, require, see


def _page(request: GarageRequest, form: PlanForm) -> HttpResponse:
    context = {
        "view": load_plan_page(request.member.garage, clock.now()),
        "works": refuse_working(request.member) is None,
    }
    return page(request, "builds/plan/plan_page.html", context, place="plan", form=form)


@require_safe
def plan_page(request: GarageRequest) -> HttpResponse:
    return _page(request, PlanForm())


@require_POST
@once
def plan_make(request: GarageRequest) -> HttpResponse:
    member, at = request.member, clock.now()
    require(refuse_working(member))
    form = PlanForm(request.POST)
    if not form.is_valid():
        return _page(request, form)
    try:
        searches.refuse_second(member.garage, at=at)
        row = plans.make_plan(member.garage, by=member, at=at)
        searches.start(
            member.garage,
            by=member,
            at=at,
            seconds=form.cleaned_data["seconds"],
            plan=row,
            now=clock.now,
        )
    except Refused as refused:
        form.add_error(None, str(refused))
        return _page(request, form)
    messages.success(request, "Planned. The search for a better one goes on.")
    return see(reverse("plan_page"))


@require_POST
@once
def plan_take(request: GarageRequest, pk: int) -> HttpResponse:
    row = editable(Plan, request.member, pk=pk)
    try:
        plans.take(row, by=request.member, at=clock.now())
    except Refused as refused:
        messages.error(request, str(refused))
    else:
        messages.success(request, "This is the plan now.")
    return see(reverse("plan_page"))
