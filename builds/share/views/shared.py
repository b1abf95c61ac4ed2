"""What a share link shows to whoever holds it."""

from collections.abc import Callable
from functools import wraps
from typing import Any
from zoneinfo import ZoneInfo

from django.contrib import messages
from django.contrib.auth.decorators import login_not_required
from django.http import FileResponse, HttpRequest, HttpResponse, HttpResponseNotAllowed
from django.http.response import HttpResponseBase
from django.shortcuts import render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_safe

from builds.calendar.facts import calendar_facts
from builds.calendar.pages import days_ahead
from builds.needs.actions import part_offers
from builds.plan.actions.follow import follow
from builds.plan.facts.stored import shown
from builds.share.pages.guests import jobs_said_of, said_on, ticks_of
from builds.share.pages.shared import SharedCar, preview_words, shared_cars
from builds.share.pages.shown import cars_of, photos_shown, sought
from builds.work.facts.work import load_work
from garage import clock, photo_files
from garage.actions import shares
from garage.address import address_of
from garage.forms.shares import HaveForm, PhraseForm, SayForm
from garage.http import as_seen, device_of, key_of, see
from garage.logs import note
from garage.models import Share
from garage.refusals import refused_at

UNLOCKED_FOR = 12 * 3600
KEYLESS = "This form came without its key: press the button again."


def by_token(view: Callable[..., HttpResponseBase]) -> Callable[..., HttpResponseBase]:
    """The live share of a token; wrong, revoked, over, malformed or guessed too often: all the same."""

    @wraps(view)
    def opened(request: HttpRequest, token: str, **named: int) -> HttpResponseBase:
        share = shares.open_by(token, address=address_of(request), at=clock.now())
        if share is None:
            answer: HttpResponseBase = render(request, "404.html", status=404)
        else:
            with timezone.override(ZoneInfo(share.garage.time_zone)):
                answer = view(request, share, token, **named)
        if not answer.has_header("Referrer-Policy"):
            answer["Referrer-Policy"] = "no-referrer"
        answer["X-Robots-Tag"] = "noindex, nofollow"
        return answer

    return opened


def _cookie(share: Share) -> str:
    return f"shared-{share.pk}"


def locked(request: HttpRequest, share: Share) -> bool:
    """By the phrase as it is kept: one that is changed asks anew."""
    told = request.get_signed_cookie(_cookie(share), "", salt=share.digest, max_age=UNLOCKED_FOR)
    return bool(share.phrase) and told != share.phrase[-20:]


def drawn(request: HttpRequest, share: Share, status: int = 200, **more: object) -> HttpResponse:
    at = clock.now()
    follow(share.garage, at=at)
    work, plan = load_work(share.garage, at), shown(share.garage)
    cars, parts = shared_cars(share, work, plan), sought(share, work)
    context = {"share": share, "cars": cars, "at": at, "parts": parts, "photos": photos_shown(share), **more}
    context["preview"] = preview_words(share, cars)
    if share.calendar:
        context["days"] = days_ahead(calendar_facts(work, plan), {car.pk for car in cars_of(share)})
    asks = _asks(share, cars, context)
    # Drawn here, not after the view as a page is: it tells the garage's time, not the server's.
    answer = render(request, "builds/share/share_page.html", context, status=status)
    if asks:  # not `no-referrer`: the browser would then send `Origin: null`, which no form may have
        answer["Referrer-Policy"] = "strict-origin"
    return answer


def _asks(share: Share, cars: tuple[SharedCar, ...], context: dict[str, Any]) -> bool:
    """Puts in what whoever reads it may say, and what was said; whether there is any form at all."""
    jobs, ticks = jobs_said_of(share, cars), ticks_of(share)
    context.setdefault("form", HaveForm())
    if jobs:
        context.setdefault("say", SayForm(jobs=jobs))
    context |= {"ticks": ticks, "said": said_on(share)}
    return bool(context["parts"] or jobs or ticks)


@login_not_required
@require_http_methods(["GET", "HEAD", "POST"])
@by_token
def share_page(request: HttpRequest, share: Share, token: str) -> HttpResponseBase:
    if not share.phrase and request.method == "POST":
        return HttpResponseNotAllowed(["GET", "HEAD"])
    if not locked(request, share):
        note("share opened", request, share=share.pk)
        return drawn(request, share)
    form = PhraseForm(as_seen(request.POST) if request.method == "POST" else None)
    if form.is_valid():
        refusal = shares.unlock(share, form.cleaned_data["phrase"], at=clock.now())
        if refusal is None:
            answer: HttpResponse = see(request.path)
            told = {"salt": share.digest, "max_age": UNLOCKED_FOR, "httponly": True, "samesite": "Lax"}
            answer.set_signed_cookie(
                _cookie(share), share.phrase[-20:], path=request.path, secure=request.is_secure(), **told
            )
            return answer
        form.add_error("phrase", refusal)
        note("share phrase refused", request, share=share.pk)
    status = 422 if form.is_bound else 200
    answer = render(request, "builds/share/share_page.html", {"locked": True, "form": form}, status=status)
    answer["Referrer-Policy"] = "strict-origin"
    return answer


@login_not_required
@require_safe
@by_token
def share_photo(request: HttpRequest, share: Share, token: str, pk: int) -> HttpResponseBase:
    photo = next((photo for photo in photos_shown(share) if photo.pk == pk), None)
    if photo is None or locked(request, share):
        return render(request, "404.html", status=404)
    try:
        file = photo_files.path(photo.name, "large").open("rb")
    except FileNotFoundError:
        return render(request, "404.html", status=404)
    answer = FileResponse(file, content_type="image/jpeg", filename=f"photo-{photo.pk}.jpg")
    answer["Content-Security-Policy"] = "default-src 'none'; sandbox"
    return answer


@login_not_required
@require_http_methods(["GET", "HEAD", "POST"])
@by_token
def share_have(request: HttpRequest, share: Share, token: str, pk: int) -> HttpResponseBase:
    """Not `once`: nobody is signed in. The key of the button counts it once."""
    if request.method != "POST":  # what a page that is loaded anew asks for
        return see(reverse("share_page", args=[token]))
    at = clock.now()
    parts = [] if locked(request, share) else sought(share, load_work(share.garage, at))
    part = next((part for part in parts if part.need.pk == pk), None)
    if part is None:
        return render(request, "404.html", status=404)
    form, key = HaveForm(as_seen(request.POST)), key_of(request)
    if key is None:
        form.add_error(None, KEYLESS)
    if form.is_valid():
        with refused_at(form, "line"):
            told = {"key": str(key), "device": device_of(request)}
            part_offers.say(share, part.need, **form.cleaned_data, **told, at=at)
            note("part offered", request, share=share.pk)
            messages.success(request, f"The owner is told that you have one: {part.what}.")
            return see(reverse("share_page", args=[token]))
    return drawn(request, share, 422, form=form, asked=pk)
