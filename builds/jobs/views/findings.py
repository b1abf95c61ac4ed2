"""Something found while a job is in hand, with photos of it."""

from django.contrib import messages
from django.core.files.uploadedfile import UploadedFile
from django.http import HttpResponse

from builds.jobs.forms.findings import FoundForm
from builds.jobs.views.jobs import say_stops, with_effect
from builds.photos.models import JobPhoto
from builds.steps.actions import findings
from builds.work.models.job import Job
from garage import clock
from garage.actions import photos
from garage.actions.photos import StrayFiles
from garage.actions.refused import Refused
from garage.engine.picture_sizes import MOST_BYTES
from garage.engine.words import work_words
from garage.http import GarageRequest, as_seen, editable, once, page, see
from garage.uploads import MB, takes_files

Kept = list[tuple[UploadedFile, StrayFiles]]


@takes_files(per_file=MOST_BYTES, most=64 * MB)
def job_found(request: GarageRequest, pk: int) -> HttpResponse:
    editable(Job, request.member, pk=pk)
    form = FoundForm(as_seen(request.POST) or None, request.FILES or None)  # as `once` would have it
    sent = form.cleaned_data.pop("sent") if form.is_valid() else []
    with photos.kept(sent) as (kept, wrong):
        return _found(request, pk, form, kept, wrong)


@once
def _found(request: GarageRequest, pk: int, form: FoundForm, kept: Kept, wrong: list[str]) -> HttpResponse:
    """A photo that cannot be kept holds no finding back: it is said, and the job is there."""
    job = editable(Job, request.member, pk=pk)
    if not form.is_valid():
        return page(request, "builds/jobs/job_found.html", {"job": job}, form=form, menu="cars")
    opened = findings.found(job, **form.cleaned_data, by=request.member, at=clock.now())
    for file, stray in kept:
        try:
            photos.add(JobPhoto, opened, stray, by=request.member, at=clock.now(), caption=opened.title)
        except Refused as refused:
            wrong.append(photos.refused_words(file, refused))
    length = work_words(opened.likely_minutes)
    messages.success(request, f"{opened}: written down as {opened.rank}, about {length}: a guess.")
    say_stops(request)
    for sentence in wrong:
        messages.error(request, f"{sentence} Add another here.")
    return see(with_effect(opened, opened))
