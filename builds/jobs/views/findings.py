"""Something found while a job is in hand, or seen on a car in passing, with photos of it."""

from collections.abc import Callable
from dataclasses import dataclass

from django.contrib import messages
from django.core.files.uploadedfile import UploadedFile
from django.http import HttpResponse

from builds.jobs.forms.findings import FoundForm
from builds.jobs.views.jobs import say_stops, with_effect
from builds.photos.models import JobPhoto
from builds.steps.actions import findings
from builds.work.models.job import Job
from garage import clock
from garage.access import refuse_work_on, refuse_working
from garage.actions import photos
from garage.actions.photos import StrayFiles
from garage.actions.refused import Refused
from garage.engine.picture_sizes import MOST_BYTES
from garage.engine.words import work_words
from garage.http import GarageRequest, as_seen, once, page, require, see, visible
from garage.models import Vehicle
from garage.uploads import MB, takes_files

Kept = list[tuple[UploadedFile, StrayFiles]]


@dataclass(frozen=True)
class SeenOn:
    """On what it was seen: its rows, what opens a job there, and the page that asks."""

    rows: type[Job | Vehicle]
    opens: Callable[..., Job]
    template: str


IN_JOB = SeenOn(Job, findings.found, "builds/jobs/job_found.html")
ON_CAR = SeenOn(Vehicle, findings.seen, "builds/jobs/job_seen.html")


@takes_files(per_file=MOST_BYTES, most=64 * MB)
def job_found(request: GarageRequest, pk: int) -> HttpResponse:
    return _asked(request, pk, IN_JOB)


@takes_files(per_file=MOST_BYTES, most=64 * MB)
def job_seen(request: GarageRequest, pk: int) -> HttpResponse:
    return _asked(request, pk, ON_CAR)


def _asked(request: GarageRequest, pk: int, where: SeenOn) -> HttpResponse:
    visible(where.rows, request.member, pk=pk)
    require(refuse_working(request.member))
    form = FoundForm(as_seen(request.POST) or None, request.FILES or None)  # as `once` would have it
    sent = form.cleaned_data.pop("sent") if form.is_valid() else []
    with photos.kept(sent) as (kept, wrong):
        return _found(request, pk, where, form, kept=kept, wrong=wrong)


@once
def _found(
    request: GarageRequest, pk: int, where: SeenOn, form: FoundForm, *, kept: Kept, wrong: list[str]
) -> HttpResponse:
    """A photo that cannot be kept holds no finding back: it is said, and the job is there."""
    there = visible(where.rows, request.member, pk=pk)
    if not form.is_valid():
        return page(request, where.template, {where.rows._meta.model_name: there}, form=form, menu="cars")
    opened = where.opens(there, **form.cleaned_data, by=request.member, at=clock.now())
    for file, stray in kept:
        try:
            photos.add(JobPhoto, opened, stray, by=request.member, at=clock.now(), caption=opened.title)
        except Refused as refused:
            wrong.append(photos.refused_words(file, refused))
    length = work_words(opened.likely_minutes)
    messages.success(request, f"{opened}: written down as {opened.rank}, about {length}: a guess.")
    say_stops(request)
    again = "" if refuse_work_on(request.member, opened.vehicle) else " Add another here."
    for sentence in wrong:
        messages.error(request, f"{sentence}{again}")
    return see(with_effect(opened, opened))
