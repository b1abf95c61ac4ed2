"""Cures: a coat whose recoat window has closed is sanded first."""

from django.contrib import messages
from django.http import HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_POST

from builds.shop.actions import cures
from builds.work.models.job import Job
from garage import clock
from garage.actions.refused import Refused
from garage.http import GarageRequest, back, editable, once


@require_POST
@once
def cure_sand(request: GarageRequest, pk: int) -> HttpResponse:
    coat = editable(Job, request.member, pk=pk)
    try:
        sanding = cures.sand_first(coat, by=request.member, at=clock.now())
    except Refused as refused:
        messages.error(request, str(refused))
    else:
        messages.success(request, f"{sanding} is written down; {coat} waits for it.")
    return back(request, reverse("job_page", args=[pk]))
