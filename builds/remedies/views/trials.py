"""What if: changes tried in a copy, the two plans side by side, kept or thrown away."""

from typing import Any

from django.contrib import messages
from django.http import Http404, HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe

from builds.plan.models import Plan
from builds.remedies.actions import trials
from builds.remedies.forms import TrialForm, initial_of
from builds.remedies.pages.deed_words import Book
from builds.remedies.pages.trials import deeds_of, is_whole, load_trial
from garage import clock
from garage.access import refuse_working
from garage.actions.refused import Refused
from garage.http import GarageRequest, editable, once, page, require, see, visible


def _trial(row: Plan) -> Plan:
    if not is_whole(row):
        raise Http404
    return row


@once
def trial_add(request: GarageRequest) -> HttpResponse:
    require(refuse_working(request.member))
    member, at = request.member, clock.now()
    more: dict[str, Any] = {"garage": member.garage, "at": at}
    form = TrialForm(request.POST or None, initial=initial_of(request.GET.get("do", "")), **more)
    if form.is_valid():
        try:
            row = trials.make(form.deeds(), by=member, at=at)
        except Refused as refused:
            form.add_error(None, str(refused))
        else:
            return see(reverse("trial_page", args=[row.pk]))
    return page(request, "builds/remedies/trial_add.html", place="plan", form=form)


@require_safe
def trial_page(request: GarageRequest, pk: int) -> HttpResponse:
    row = _trial(visible(Plan, request.member, pk=pk))
    view = load_trial(row, request.member, clock.now())
    if view is None:
        raise Http404
    context = {"view": view, "works": refuse_working(request.member) is None}
    return page(request, "builds/remedies/trial_page.html", context, place="plan")


@require_POST
@once
def trial_keep(request: GarageRequest, pk: int) -> HttpResponse:
    row = _trial(editable(Plan, request.member, pk=pk))
    try:
        book = Book(request.member.garage)
        for deed in deeds_of(row):
            require(book.refusal(deed, request.member))
        trials.settle(row, by=request.member, at=clock.now())
    except KeyError:
        messages.error(request, "Something that was tried is not there any more: try anew.")
    except Refused as refused:
        messages.error(request, str(refused))
    else:
        messages.success(request, "It is done, and planned.")
        return see(reverse("plan_page"))
    return see(reverse("trial_page", args=[pk]))


@require_POST
@once
def trial_drop(request: GarageRequest, pk: int) -> HttpResponse:
    trials.forget(_trial(editable(Plan, request.member, pk=pk)))
    messages.success(request, "Thrown away; nothing in the garage has changed.")
    return see(reverse("plan_page"))
