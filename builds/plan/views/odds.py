"""The odds of the plan on the wall."""

from django.http import HttpResponse
from django.views.decorators.http import require_safe

from builds.plan.pages.odds import odds_page
from builds.plan.views.following import follows
from garage import clock
from garage.http import GarageRequest, page


@require_safe
@follows
def plan_odds(request: GarageRequest) -> HttpResponse:
    context = {"view": odds_page(request.member.garage, clock.now())}
    return page(request, "builds/plan/plan_odds.html", context, menu="plan")
