"""What the log says of the estimates, and whether the odds count with it."""

from django.contrib import messages
from django.http import HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe

from builds.plan.pages.log import log_says
from garage.access import refuse_arranging
from garage.actions import garages
from garage.http import GarageRequest, once, page, require, see


@require_safe
def log_page(request: GarageRequest) -> HttpResponse:
    garage = request.member.garage
    context = {
        "lines": log_says(garage),
        "counts": garage.log_counts,
        "arranges": refuse_arranging(request.member) is None,
    }
    return page(request, "builds/plan/log_page.html", context, menu="plan")


@require_POST
@once
def log_count(request: GarageRequest) -> HttpResponse:
    require(refuse_arranging(request.member))
    counts = request.POST.get("count") == "yes"
    garages.let_log_count(request.member.garage, counts)
    said = "The odds count with what the log says." if counts else "The odds take what is written."
    messages.success(request, said)
    return see(reverse("log_page"))
