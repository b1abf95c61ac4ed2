"""Scrutineering: the lists of an entry, one tap to tick, a form to fail or to leave out."""

from collections.abc import Callable
from typing import Any

from django.contrib import messages
from django.http import HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe

from builds.scrutineering.actions import check_lists, checks
from builds.scrutineering.actions.checks import TapResult
from builds.scrutineering.engine.check_list import SECTION_MAX
from builds.scrutineering.engine.check_states import LABELS, CheckState
from builds.scrutineering.forms.checks import FailForm, HasForm, LeaveOutForm
from builds.scrutineering.forms.many import ManyForm
from builds.scrutineering.models.check import CheckItem
from builds.scrutineering.pages.check_item import item_view
from builds.scrutineering.pages.check_list import entry_checks, rows_to_tick
from garage import clock
from garage.access import refuse_work_on
from garage.actions.refused import Refused
from garage.engine.state_table import moved_on
from garage.http import GarageRequest, back, editable, once, page, require, see, visible
from garage.models import Entry, Vehicle
from garage.refusals import refused_aloud, refused_at
from garage.tap_key import tap_key


@require_safe
def check_list(request: GarageRequest, pk: int) -> HttpResponse:
    entry = visible(Entry, request.member, pk=pk)
    context = {
        "entry": entry,
        "view": entry_checks(entry, clock.now()),
        "works": refuse_work_on(request.member, entry.vehicle) is None,
    }
    return page(request, "builds/scrutineering/check_list.html", context, menu="events")


@require_POST
@once
def check_make(request: GarageRequest, pk: int) -> HttpResponse:
    entry = visible(Entry, request.member, pk=pk)
    require(refuse_work_on(request.member, entry.vehicle))
    made = check_lists.make(entry, by=request.member, at=clock.now())
    messages.success(request, f"{made.items.count()} things to look at on {entry.vehicle}.")
    return see(_list(entry.pk))


@once
def check_many(request: GarageRequest, pk: int) -> HttpResponse:
    entry = visible(Entry, request.member, pk=pk)
    require(refuse_work_on(request.member, entry.vehicle))
    section, at = request.GET.get("section", "")[:SECTION_MAX], clock.now()
    sent = request.POST if request.method == "POST" else None
    form = ManyForm(sent, rows=rows_to_tick(entry_checks(entry, at), section))
    if form.is_valid():
        ticked, told = checks.tick_many(form.looked_at(), by=request.member, at=at, key=tap_key(request))
        messages.success(request, f"{ticked} ticked{f' in {section}' if section else ''}.")
        for sentence in told:
            messages.error(request, sentence)
        return see(_list(pk))
    context = {"entry": entry, "section": section}
    return page(request, "builds/scrutineering/check_many.html", context, form=form, menu="events")


@require_safe
def check_page(request: GarageRequest, pk: int) -> HttpResponse:
    item = visible(CheckItem, request.member, pk=pk)
    context = {
        "view": item_view(item, clock.now()),
        "works": refuse_work_on(request.member, item.checklist.entry.vehicle) is None,
    }
    return page(request, "builds/scrutineering/check_page.html", context, menu="events")


def _list(entry: int) -> str:
    return reverse("check_list", args=[entry])


def _taken(request: GarageRequest, item: CheckItem, act: Callable[..., TapResult], said: str) -> HttpResponse:
    """What a tap says; one that is refused, or drawn in another state, goes back to where it was made."""
    with refused_aloud(request):
        stale = moved_on(f"“{item}”", LABELS, request.POST.get("stood", item.state), item.state)
        if stale:
            raise Refused(stale)
        taken = act(by=request.member, at=clock.now(), key=tap_key(request))
        messages.success(request, f"{said}: {item}. {taken.said}".strip())
    return back(request, _list(item.checklist.entry_id))


@require_POST
@once
def check_tick(request: GarageRequest, pk: int) -> HttpResponse:
    item = editable(CheckItem, request.member, pk=pk)
    step = "mend" if item.state == CheckState.FAILED else "tick"

    def act(**told: Any) -> TapResult:
        return checks.take(item, step, **told)

    return _taken(request, item, act, "Mended and ticked" if step == "mend" else "Ticked")


@require_POST
@once
def check_undo(request: GarageRequest, pk: int) -> HttpResponse:
    item = editable(CheckItem, request.member, pk=pk)

    def act(**told: Any) -> TapResult:
        return checks.undo(item, **told)

    return _taken(request, item, act, "Taken back")


@once
def check_fail(request: GarageRequest, pk: int) -> HttpResponse:
    item = editable(CheckItem, request.member, pk=pk)
    return _told(request, item, "fail", FailForm(request.POST or None, item=item))


@once
def check_leave_out(request: GarageRequest, pk: int) -> HttpResponse:
    item = editable(CheckItem, request.member, pk=pk)
    return _told(request, item, "leave_out", LeaveOutForm(request.POST or None))


def _told(request: GarageRequest, item: CheckItem, step: str, form: Any) -> HttpResponse:
    if form.is_valid():
        with refused_at(form):
            taken = checks.take(
                item,
                step,
                by=request.member,
                at=clock.now(),
                key=tap_key(request),
                **form.cleaned_data,
            )
            job = taken.row.job
            ending = f" “{job}” is written down as {job.rank}." if job else ""
            word = "Failed" if job else "Does not apply"
            messages.success(request, f"{word}: {item}.{ending}")
            return see(_list(item.checklist.entry_id))
    return page(
        request,
        f"builds/scrutineering/check_{step}.html",
        {"item": item, "entry": item.checklist.entry},
        form=form,
        menu="events",
    )


@once
def check_has(request: GarageRequest, pk: int) -> HttpResponse:
    vehicle = visible(Vehicle, request.member, pk=pk)
    require(refuse_work_on(request.member, vehicle))  # whoever works on it may say what it has
    form = HasForm(request.POST if request.method == "POST" else None, vehicle=vehicle)
    if form.is_valid():
        with refused_at(form):
            check_lists.say_has(vehicle, form.cleaned_data["tags"], by=request.member)
            messages.success(request, f"What {vehicle} has is written down.")
            return back(request, reverse("vehicle_page", args=[pk]))
    return page(
        request,
        "builds/scrutineering/check_has.html",
        {"vehicle": vehicle},
        form=form,
        menu="cars",
    )
