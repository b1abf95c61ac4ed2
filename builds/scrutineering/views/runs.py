"""During and after the event: a first session run, and the strip-down check on what ran."""

from django.contrib import messages
from django.http import HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_POST

from builds.scrutineering.actions import runs
from builds.scrutineering.forms.runs import StripDownForm
from builds.work.models.entry_run import EntryRun
from garage import clock
from garage.access import refuse_work_on, refuse_working
from garage.http import GarageRequest, back, editable, once, page, require, see, visible
from garage.models import Entry, Event
from garage.refusals import refused_aloud, refused_at


@require_POST
@once
def run_first_session(request: GarageRequest, pk: int) -> HttpResponse:
    entry = visible(Entry, request.member, pk=pk)
    require(refuse_work_on(request.member, entry.vehicle))
    with refused_aloud(request):
        runs.first_session(entry, by=request.member, at=clock.now())
        messages.success(request, f"{entry.vehicle} has run: look at these again.")
        return see(reverse("check_list", args=[pk]))
    return back(request, reverse("event_page", args=[entry.event_id]))


@require_POST
@once
def run_none(request: GarageRequest, pk: int) -> HttpResponse:
    entry = visible(Entry, request.member, pk=pk)
    require(refuse_work_on(request.member, entry.vehicle))
    with refused_aloud(request):
        runs.did_not_run(entry, by=request.member, at=clock.now())
        messages.success(request, f"{entry.vehicle} did not run at {entry.event}: what running changes holds.")
    return back(request, reverse("event_page", args=[entry.event_id]))


@require_POST
@once
def run_not(request: GarageRequest, pk: int) -> HttpResponse:
    run = editable(EntryRun, request.member, entry=pk)
    with refused_aloud(request):
        runs.not_run(run, by=request.member, at=clock.now())
        taken_back = "has not run yet" if run.ran else "may have run: say whether it did"
        messages.success(request, f"{run.entry.vehicle} {taken_back}.")
    return back(request, reverse("event_page", args=[run.entry.event_id]))


@once
def run_strip_down(request: GarageRequest, pk: int) -> HttpResponse:
    event = visible(Event, request.member, pk=pk)
    require(refuse_working(request.member))
    form = StripDownForm(request.POST if request.method == "POST" else None, event=event, by=request.member)
    if form.is_valid():
        with refused_at(form):
            made = runs.strip_down(event, form.cleaned_data["entries"], by=request.member, at=clock.now())
            count = len(made)
            messages.success(request, f"The strip-down check is on {count} car{'s' * (count > 1)}.")
            return see(reverse("event_page", args=[pk]))
    return page(
        request,
        "builds/scrutineering/run_strip_down.html",
        {"event": event},
        form=form,
        menu="events",
    )
