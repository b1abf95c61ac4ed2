"""Jobs: read, written down, changed."""

from datetime import datetime
from typing import Any

from django.contrib import messages
from django.http import HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_safe

from builds.bench.offered import sums_for
from builds.jobs.forms.jobs import JobForm
from builds.jobs.pages.by_words import told_words
from builds.jobs.pages.job import load_page
from builds.jobs.pages.nights import night_offers
from builds.joints.pages.joint_page import job_joints
from builds.plan.facts.effect import effect_of
from builds.plan.facts.stored import wall
from builds.plan.pages.effect import effect_words
from builds.plan.views.following import follows
from builds.readings.engine.kinds_of_work import KINDS, voided_by
from builds.readings.pages.job_readings import job_readings
from builds.steps.actions import jobs
from builds.steps.facts.looks import hands_in
from builds.sums.pages.job_sums import sums_of_jobs
from builds.work.facts.room_now import room_now
from builds.work.models.job import Job
from garage import clock
from garage.access import refuse_work_on, refuse_working
from garage.actions.refused import Refused
from garage.http import GarageRequest, editable, once, page, require, see, visible
from garage.models import Vehicle


@require_safe
@follows
def job_page(request: GarageRequest, pk: int) -> HttpResponse:
    at, beside = clock.now(), ("vehicle", "skill", "found_in", "made_by__person")
    job = visible(Job, request.member, beside=beside, pk=pk)
    _say_effect(request, at)
    people = hands_in(request.member.garage)
    view = load_page(job, request.member, people, at)
    works = refuse_work_on(request.member, job.vehicle) is None
    looks = refuse_working(request.member) is None
    context = {
        "job": job,
        "view": view,
        "works": works,
        "looks": looks,
        "nights": night_offers(job, request.member.garage, at),
        "readings": job_readings(job, request.member.garage),
        "sums": sums_for(readings=voided_by(slug for slug in job.kinds if slug in KINDS), systems=job.systems),
        "worked_out": sums_of_jobs([job], at)[job.pk],
        "joints": job_joints(job, request.member, people, at),
    }
    return page(request, "builds/jobs/job_page.html", context, menu="cars")


def with_effect(job: Job, written: Job) -> str:
    """The page of a job that also says what another, just written down, does to the plan on the wall.

    Told there and not where it is written: planning takes too long for a transaction.
    """
    stood = wall(job.vehicle.garage)
    return f"{reverse('job_page', args=[job.pk])}?effect={written.pk}" + (f"&stood={stood}" if stood else "")


def _say_effect(request: GarageRequest, at: datetime) -> None:
    wanted, stood = (request.GET.get(name, "") for name in ("effect", "stood"))
    if not all(given.isdecimal() and len(given) < 19 for given in (wanted, stood or "0")):
        return
    written = Job.objects.visible_to(request.member).filter(pk=wanted).first()
    garage, before = request.member.garage, int(stood) if stood else None
    effect = effect_of(garage, written, stood=before, at=at) if written else None
    if effect:
        messages.info(request, effect_words(effect))


def _write(form: JobForm, act: Any, **more: Any) -> Job | None:
    """The job as written; a refusal of the action is put at the form."""
    if not form.is_valid():
        return None
    try:
        job: Job = act(**form.written(), at=clock.now(), **more)
    except Refused as refused:
        form.add_error(refused.field if refused.field in form.fields else None, str(refused))
        return None
    return job


@once
def job_add(request: GarageRequest, pk: int) -> HttpResponse:
    vehicle = visible(Vehicle, request.member, pk=pk)
    require(refuse_work_on(request.member, vehicle))
    form = JobForm(request.POST or None, member=request.member, vehicle=vehicle)
    job = _write(form, jobs.add, by=request.member)
    if job:
        told = told_words(form.told)
        messages.success(request, f"“{job}” is written down for {job.vehicle}.{told}")
        say_stops(request)
        return see(with_effect(job, job))
    return page(request, "builds/jobs/job_add.html", {"vehicle": vehicle}, form=form, menu="cars")


def say_stops(request: GarageRequest) -> None:
    """What is in hand and must stop, in the answer to what was found or opened."""
    for sentence in room_now(request.member.garage_id, clock.now()).stops().values():
        messages.error(request, sentence)


@once
def job_edit(request: GarageRequest, pk: int) -> HttpResponse:
    job = editable(Job, request.member, pk=pk)
    form = JobForm(request.POST or None, member=request.member, vehicle=job.vehicle, job=job)
    if _write(form, jobs.change, job=job, by=request.member):
        messages.success(request, f"“{job}” is changed.{told_words(form.told)}")
        return see(with_effect(job, job))
    return page(request, "builds/jobs/job_edit.html", {"job": job}, form=form, menu="cars")
