"""The steps of a job, one tap each; some ask for a reason first."""

from collections.abc import Callable
from typing import Any

from django.contrib import messages
from django.http import HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_POST

from builds.actions import steps
from builds.forms.jobs import ReasonForm
from builds.models import Job
from garage import clock
from garage.actions.refused import Refused
from garage.http import GarageRequest, back, editable, once, page


def _take(request: GarageRequest, pk: int, action: Callable[..., Any], **more: Any) -> HttpResponse:
    """One tap: the effect, or the refusal's sentence, back where one was."""
    job = editable(Job, request.member, pk=pk)
    try:
        said = action(job, by=request.member, at=clock.now(), **more)
    except Refused as refused:
        messages.error(request, str(refused))
    else:
        lines = said if isinstance(said, list) else []
        messages.success(
            request, " ".join([f"{job}: {job.get_state_display()}.", *map(str, lines)])
        )
    return back(request, reverse("job_page", args=[pk]))


def _take_with_reason(
    request: GarageRequest, pk: int, step: str, action: Callable[..., Any]
) -> HttpResponse:
    job = editable(Job, request.member, pk=pk)
    form = ReasonForm(request.POST or None)
    if form.is_valid():
        try:
            action(job, by=request.member, at=clock.now(), reason=form.cleaned_data["reason"])
        except Refused as refused:
            form.add_error("reason", str(refused))
        else:
            messages.success(request, f"{job}: {job.get_state_display()}.")
            return back(request, reverse("job_page", args=[pk]))
    return page(request, f"builds/job_{step}.html", {"job": job}, form=form, place="cars")


@require_POST
@once
def job_start(request: GarageRequest, pk: int) -> HttpResponse:
    return _take(request, pk, steps.start)


@require_POST
@once
def job_stop(request: GarageRequest, pk: int) -> HttpResponse:
    return _take(request, pk, steps.stop)


@require_POST
@once
def job_finish(request: GarageRequest, pk: int) -> HttpResponse:
    return _take(request, pk, _finish)


@require_POST
@once
def job_release(request: GarageRequest, pk: int) -> HttpResponse:
    return _take(request, pk, steps.release)


@require_POST
@once
def job_sign(request: GarageRequest, pk: int) -> HttpResponse:
    return _take(request, pk, steps.sign)


@once
def job_hold(request: GarageRequest, pk: int) -> HttpResponse:
    return _take_with_reason(request, pk, "hold", steps.hold)


@once
def job_drop(request: GarageRequest, pk: int) -> HttpResponse:
    return _take_with_reason(request, pk, "drop", steps.drop)


@once
def job_reopen(request: GarageRequest, pk: int) -> HttpResponse:
    return _take_with_reason(request, pk, "reopen", steps.reopen)


def _finish(job: Job, **who: Any) -> list[str]:
    """The sentence that names what must be looked at, when the job has hold points."""
    points = steps.finish(job, **who)
    return [f"Stop here until somebody else has looked and signed: {points[0]}."] if points else []
