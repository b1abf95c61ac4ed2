"""What guests say on a shared page: comments, and that a job is done; and its answer."""

from django.contrib import messages
from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST

from builds.plan.facts.stored import shown
from builds.share.pages.guests import job_said_of, jobs_said_of, tick_job
from builds.share.pages.shared import shared_cars
from builds.share.views.shared import KEYLESS, by_token, drawn, locked
from builds.steps.actions import comments, guest_ticks
from builds.work.facts.work import load_work
from builds.work.models.guest_tick import GuestTick
from garage import clock
from garage.forms.shares import SayForm, TickForm
from garage.http import GarageRequest, as_seen, back, device_of, editable, key_of, once, see
from garage.logs import note
from garage.models import Share
from garage.refusals import refused_at


def _gone(request: HttpRequest) -> HttpResponse:
    return render(request, "404.html", status=404)


@login_not_required
@require_http_methods(["GET", "HEAD", "POST"])
@by_token
def share_comment(request: HttpRequest, share: Share, token: str) -> HttpResponseBase:
    """Not `once`: nobody is signed in. The key of the button counts it once."""
    at, home = clock.now(), reverse("share_page", args=[token])
    if request.method != "POST":
        return see(home)
    if locked(request, share) or not share.may_comment:
        return _gone(request)
    cars = shared_cars(share, load_work(share.garage, at), shown(share.garage))
    form, key = SayForm(as_seen(request.POST), jobs=jobs_said_of(share, cars)), key_of(request)
    if key is None:
        form.add_error(None, KEYLESS)
    if form.is_valid():
        with refused_at(form, "text"):
            said = form.cleaned_data
            job = job_said_of(said["job"])
            told = {"name": said["name"], "key": str(key), "device": device_of(request)}
            comments.comment_as_guest(share, job, said["text"], **told, at=at)
            note("share commented", request, share=share.pk)
            messages.success(request, "Said: it stands here and with the job.")
            return see(f"{home}#said")
    return drawn(request, share, 422, say=form)


@login_not_required
@require_http_methods(["GET", "HEAD", "POST"])
@by_token
def share_tick(request: HttpRequest, share: Share, token: str, pk: int) -> HttpResponseBase:
    """Not `once`, as `share_comment`."""
    at, home = clock.now(), reverse("share_page", args=[token])
    if request.method != "POST":
        return see(home)
    job = None if locked(request, share) else tick_job(share, pk)
    if job is None:
        return _gone(request)
    form, key = TickForm(as_seen(request.POST)), key_of(request)
    if key is None:
        form.add_error(None, KEYLESS)
    if form.is_valid():
        with refused_at(form, "name"):
            told = {"key": str(key), "device": device_of(request)}
            guest_ticks.say(share, job, **form.cleaned_data, **told, at=at)
            note("share ticked", request, share=share.pk)
            messages.success(request, f"Said: “{job}” waits for a yes of the garage.")
            return see(f"{home}#ticks")
    return drawn(request, share, 422, tick=form, ticked=pk)


@require_POST
@once
def share_tick_refuse(request: GarageRequest, pk: int) -> HttpResponse:
    tick = editable(GuestTick, request.member, pk=pk)
    guest_ticks.refuse(tick, by=request.member, at=clock.now())
    messages.success(request, f"“{tick.job}” is still to do: {tick.name} reads it as open.")
    return back(request, reverse("job_page", args=[tick.job_id]))
