"""Cures: a coat whose recoat window has closed is sanded first."""

from django.contrib import messages
from django.http import HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_POST

from builds.shop.actions import cures
from builds.work.models.job import Job
from garage import clock
from garage.http import GarageRequest, back, editable, once
from garage.refusals import refused_aloud


@require_POST
@once
def cure_sand(request: GarageRequest, pk: int) -> HttpResponse:
    coat = editable(Job, request.member, pk=pk)
    with refused_aloud(request):
        sanding = cures.sand_first(coat, by=request.member, at=clock.now())
        messages.success(request, f"{sanding} is written down; {coat} waits for it.")
    return back(request, reverse("job_page", args=[pk]))
