"""What if: changes tried in a copy, the two plans side by side, kept or thrown away."""

from django.contrib import messages
from django.http import Http404, HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe

from builds.plan.models import Plan
from builds.plan.views.following import follows
from builds.remedies.actions import trials
from builds.remedies.facts.trials import note_of
from builds.remedies.forms import TrialForm, initial_of
from builds.remedies.pages import trials as trial_pages
from garage import clock
from garage.access import refuse_working
from garage.http import GarageRequest, editable, once, page, require, see, visible
from garage.limits import tries_plans
from garage.refusals import refused_aloud, refused_at


@tries_plans
@once
def trial_add(request: GarageRequest) -> HttpResponse:
    require(refuse_working(request.member))
    member, at = request.member, clock.now()
    form = TrialForm(request.POST or None, initial=initial_of(request.GET.get("do", "")), garage=member.garage, at=at)
    if form.is_valid():
        with refused_at(form):
            row = trials.make(form.deeds(), by=member, at=at)
            return see(reverse("trial_page", args=[row.pk]))
    return page(request, "builds/remedies/trial_add.html", menu="plan", form=form)


@tries_plans
@require_safe
@follows
def trial_page(request: GarageRequest, pk: int) -> HttpResponse:
    answer = trials.compare(visible(Plan, request.member, pk=pk), by=request.member, at=clock.now())
    if answer is None:
        raise Http404
    context = {"view": trial_pages.trial_page(answer), "works": refuse_working(request.member) is None}
    return page(request, "builds/remedies/trial_page.html", context, menu="plan")


def _to_change(request: GarageRequest, pk: int) -> Plan:
    row: Plan = editable(Plan, request.member, pk=pk)
    if note_of(row) is None:
        raise Http404
    return row


@require_POST
@once
def trial_keep(request: GarageRequest, pk: int) -> HttpResponse:
    row = _to_change(request, pk)
    with refused_aloud(request):
        require(trials.refusal(row, by=request.member))
        trials.settle(row, by=request.member, at=clock.now())
        messages.success(request, "It is done, and planned.")
        return see(reverse("plan_page"))
    return see(reverse("trial_page", args=[pk]))


@require_POST
@once
def trial_drop(request: GarageRequest, pk: int) -> HttpResponse:
    trials.forget(_to_change(request, pk))
    messages.success(request, "Deleted; nothing in the garage has changed.")
    return see(reverse("plan_page"))
