"""Where a job is done: overnight at an event, or at home."""

from django.contrib import messages
from django.http import HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_POST

from builds.steps.actions import nights
from builds.work.models.job import Job
from garage import clock
from garage.http import GarageRequest, back, editable, once, visible
from garage.models import Night
from garage.refusals import refused_aloud


@require_POST
@once
def job_night(request: GarageRequest, pk: int) -> HttpResponse:
    job = editable(Job, request.member, pk=pk)
    asked = request.POST.get("night", "")
    with refused_aloud(request):
        if asked.isdecimal() and len(asked) < 19:
            night = visible(Night, request.member, pk=int(asked))
            nights.do_overnight(job, night, by=request.member, at=clock.now())
            messages.success(request, f"“{job}” is to be done overnight at {night.event}.")
        else:
            nights.do_at_home(job, by=request.member, at=clock.now())
            messages.success(request, f"“{job}” is to be done at home.")
    return back(request, reverse("job_page", args=[pk]))
