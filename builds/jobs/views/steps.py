"""The steps of a job: one tap each, or a form that says who, when and why."""

from collections.abc import Callable, Iterable
from typing import Any

from django import forms
from django.contrib import messages
from django.http import HttpResponse
from django.urls import reverse

from builds.jobs import actions
from builds.jobs.forms.finish import FinishForm
from builds.jobs.forms.steps import (
    JobSignForm,
    ReasonForm,
    ReleaseForm,
    StartForm,
    StopForm,
)
from builds.jobs.pages.steps import finish_words, in_hand_words
from builds.readings.pages.amiss import amiss_said
from builds.steps.actions import steps
from builds.steps.facts.begun import is_off
from builds.steps.pages.looks import given_up, signer_words
from builds.work.actions import hands_now
from builds.work.models.job import Job
from builds.work.models.states import JOB_STATES
from garage import clock
from garage.access import refuse_put_down, refuse_work_on, refuse_working
from garage.actions.refused import Refused
from garage.engine.state_table import moved_on
from garage.http import GarageRequest, back, editable, once, page, require, visible
from garage.models import Membership
from garage.refusals import say_refused

Said = Iterable[str]


def _refuse_work(member: Membership, job: Job) -> str | None:
    return refuse_work_on(member, job.vehicle)


def _refuse_look(member: Membership, job: Job) -> str | None:
    return refuse_working(member)


def _refuse_stop(member: Membership, job: Job) -> str | None:
    return refuse_put_down(member, job.vehicle, hands_now(job))


def _step(
    request: GarageRequest,
    pk: int,
    name: str,
    form_class: type[forms.Form],
    act: Callable[..., Said],
    *,
    refuses: Callable[[Membership, Job], str | None] = _refuse_work,
) -> HttpResponse:
    """GET draws the form, POST takes the step; a refusal goes back to where the tap was."""
    job, at = visible(Job, request.member, pk=pk), clock.now()
    require(refuses(request.member, job))
    form = form_class(request.POST if request.method == "POST" else None, job=job, member=request.member, at=at)
    if form.is_valid():
        try:
            _refuse_stale(request, job)
            said = act(job, by=request.member, at=at, **form.cleaned_data)
        except Refused as refused:
            if not form.has_changed() and not refused.field:
                say_refused(request, str(refused))
                return back(request, reverse("job_page", args=[pk]))
            form.add_error(refused.field or None, str(refused))
        else:
            messages.success(request, " ".join(said))
            return back(request, reverse("job_page", args=[pk]))
    return page(request, f"builds/jobs/job_{name}.html", {"job": job}, form=form, menu="cars")


def _refuse_stale(request: GarageRequest, job: Job) -> None:
    """A button acts on the state that it was drawn in, and on no other."""
    stale = moved_on(f"“{job}”", JOB_STATES.labels, request.POST.get("stood", job.state), job.state)
    if stale:
        raise Refused(stale)


@once
def job_start(request: GarageRequest, pk: int) -> HttpResponse:
    def act(job: Job, **told: Any) -> Said:
        put_down = steps.start(job, **told)
        return [in_hand_words(job), *put_down]

    return _step(request, pk, "start", StartForm, act)


@once
def job_stop(request: GarageRequest, pk: int) -> HttpResponse:
    def act(job: Job, **told: Any) -> Said:
        put_down = steps.stop(job, **told)
        return [in_hand_words(job), *put_down] if told["crew"] else [f"“{job}” is put down."]

    return _step(request, pk, "stop", StopForm, act, refuses=_refuse_stop)


@once
def job_finish(request: GarageRequest, pk: int) -> HttpResponse:
    job, at = editable(Job, request.member, pk=pk), clock.now()
    sent = request.POST if request.method == "POST" else None
    form = FinishForm(sent, job=job, member=request.member, at=at)
    if form.is_valid():
        told = form.finish()
        try:
            _refuse_stale(request, job)
            points, put_down = actions.finish(job, by=request.member, at=at, **told)
        except Refused as refused:
            if not form.has_changed() and not refused.field:
                say_refused(request, str(refused))
                return back(request, reverse("job_page", args=[pk]))
            form.put(str(refused), refused.field)
        else:
            amiss = amiss_said(job.vehicle, [taken.kind.key for taken in told["came"].readings])
            left = [form.left(told["came"]), in_hand_words(told["then"]), *put_down]
            said = " ".join(filter(None, [finish_words(job, points), amiss, *left]))
            messages.add_message(request, messages.ERROR if amiss else messages.SUCCESS, said)
            return back(request, reverse("job_page", args=[pk]))
    context = {"job": job, "given_up": given_up(job, request.member)}
    return page(request, "builds/jobs/job_finish.html", context, form=form, menu="cars")


@once
def job_hold(request: GarageRequest, pk: int) -> HttpResponse:
    def act(job: Job, **told: Any) -> Said:
        steps.hold(job, **told)
        return [f"“{job}” is on hold: {told['reason']}"]

    return _step(request, pk, "hold", ReasonForm, act)


@once
def job_release(request: GarageRequest, pk: int) -> HttpResponse:
    def act(job: Job, **told: Any) -> Said:
        steps.release(job, **told)
        return [f"“{job}” can go on."]

    return _step(request, pk, "release", ReleaseForm, act)


@once
def job_sign(request: GarageRequest, pk: int) -> HttpResponse:
    def act(job: Job, **told: Any) -> Said:
        steps.sign(job, **told)
        return [f"“{job}” is signed by {signer_words(job)}."]

    return _step(request, pk, "sign", JobSignForm, act, refuses=_refuse_look)


@once
def job_reopen(request: GarageRequest, pk: int) -> HttpResponse:
    def act(job: Job, **told: Any) -> Said:
        return [f"“{job}” is open again.", *steps.reopen(job, **told)]

    return _step(request, pk, "reopen", ReasonForm, act)


@once
def job_drop(request: GarageRequest, pk: int) -> HttpResponse:
    def act(job: Job, **told: Any) -> Said:
        steps.drop(job, **told)
        return [f"“{job}” is dropped."]

    return _step(request, pk, "drop", ReasonForm, act)


@once
def job_whole(request: GarageRequest, pk: int) -> HttpResponse:
    def act(job: Job, **told: Any) -> Said:
        steps.whole(job, **told)
        if is_off(job):
            return [f"{job.vehicle} does without: its verdict says so from now on."]
        return [f"Nothing of “{job}” is left half done on {job.vehicle}."]

    return _step(request, pk, "whole", ReasonForm, act)
