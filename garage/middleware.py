"""Middleware: who asks in which garage, headers of every answer, errors that leave a trace."""

import json
import logging
import secrets
from collections.abc import Callable
from datetime import datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from django.contrib.auth import logout
from django.contrib.auth.middleware import LoginRequiredMiddleware
from django.core.exceptions import PermissionDenied
from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.shortcuts import resolve_url
from django.urls import reverse
from django.utils import timezone
from django.utils.cache import patch_cache_control, patch_vary_headers
from django.utils.http import url_has_allowed_host_and_scheme, urlencode

from garage import clock, logs
from garage.actions import devices
from garage.http import see
from garage.models import Membership
from garage.public import asked_by

Answer = Callable[[HttpRequest], HttpResponse]
log = logging.getLogger("garage.errors")
CHOSEN = "garage"
# A phone trusts no answer of a gateway (see static/js/unsent.js and paddock_worker.js).
MARK = "Garage-Says"
SIGNED_IN, EXTENDED, DEVICE = "signed_in", "extended", "device"
# A helper's phone stays signed in between two events (14 days without use, as the cookie says),
# and is asked again at the latest once a season.
ABSOLUTE_AGE = timedelta(days=90)
EXTEND_EVERY = timedelta(days=1)


def asked(get_response: Answer) -> Answer:
    """What is drawn for a request knows where it was opened (`garage.public`)."""

    def middleware(request: HttpRequest) -> HttpResponse:
        token = asked_by.set(request)
        try:
            return get_response(request)
        finally:
            asked_by.reset(token)

    return middleware


def begin_session(request: HttpRequest, at: datetime) -> None:
    request.session[SIGNED_IN] = request.session[EXTENDED] = at.timestamp()
    _note_device(request, at)


def _note_device(request: HttpRequest, at: datetime) -> None:
    """By the key of its session, which is drawn anew at a new password."""
    session = request.session
    if session.session_key is None:
        session.create()
    agent = request.headers.get("User-Agent", "")
    session[DEVICE] = devices.note(
        request.user, session_key=session.session_key, agent=agent, known=session.get(DEVICE), at=at
    )


def sessions(get_response: Answer) -> Answer:
    """End a session that is too old or was ended elsewhere; extend a used one once a day."""

    def middleware(request: HttpRequest) -> HttpResponse:
        if request.user.is_authenticated:
            now, ended = clock.now(), request.user.sessions_from
            if SIGNED_IN not in request.session:
                begin_session(request, now)
            if DEVICE not in request.session:  # one that began before devices were known
                _note_device(request, now)
            began = request.session[SIGNED_IN]
            too_old = now.timestamp() - began >= ABSOLUTE_AGE.total_seconds()
            if too_old or (ended and began < ended.timestamp()):
                logout(request)
            elif now.timestamp() - request.session[EXTENDED] >= EXTEND_EVERY.total_seconds():
                request.session[EXTENDED] = now.timestamp()
                devices.seen(request.session[DEVICE], at=now)
        return get_response(request)

    return middleware


class SignInRequired(LoginRequiredMiddleware):
    """To the sign-in page, and after it back to where a page can be drawn."""

    def handle_no_permission(self, request: HttpRequest, view_func: Any) -> HttpResponse:
        return to_sign_in(request)


def to_sign_in(request: HttpRequest) -> HttpResponse:
    htmx = getattr(request, "htmx", None)
    here = request.get_full_path() if request.method in ("GET", "HEAD") else ""
    if htmx:
        here = htmx.current_url_abs_path or ""
    safe = url_has_allowed_host_and_scheme(here, allowed_hosts=None)
    url = resolve_url("sign_in") + (f"?{urlencode({'next': here})}" if safe else "")
    if htmx:  # a fragment cannot hold the sign-in page: leave this one
        return HttpResponse(status=401, headers={"HX-Redirect": url})
    return HttpResponseRedirect(url)


def member(get_response: Answer) -> Answer:
    """Set `request.member` afresh on every request, so that a revoked membership ends at once."""

    def middleware(request: HttpRequest) -> HttpResponse:
        request.member = None  # GarageRequest declares it
        request.garages = []  # those that he can change to
        request.scheme_wanted = ""  # light, dark or the phone's own
        if request.user.is_authenticated:
            request.scheme_wanted = request.user.scheme
            mine = list(Membership.objects.active().of(request.user).select_related("garage", "person"))
            request.garages = [membership.garage for membership in mine]
            chosen = request.session.get(CHOSEN)
            member = next(
                (membership for membership in mine if membership.garage_id == chosen), mine[0] if mine else None
            )
            request.member = member
            if member:
                with timezone.override(ZoneInfo(member.garage.time_zone)):
                    return get_response(request)
        return get_response(request)

    def in_a_garage(request: HttpRequest, view: Any, args: Any, kwargs: Any) -> HttpResponse | None:
        needed = getattr(view, "login_required", True) and getattr(view, "garage_required", True)
        if request.member or not needed or not request.user.is_authenticated:
            return None
        if Membership.objects.of(request.user).real().exists():
            raise PermissionDenied("You are not in this garage any more: ask its owner.")
        return see(reverse("first_run"))

    middleware.process_view = in_a_garage
    return middleware


def answers(get_response: Answer) -> Answer:
    """Private pages stay out of caches; a page and its fragment are told apart."""

    def middleware(request: HttpRequest) -> HttpResponse:
        response = get_response(request)
        patch_vary_headers(response, ["HX-Request"])
        if not response.has_header("Cache-Control"):
            patch_cache_control(response, private=True, no_store=True)
        htmx = getattr(request, "htmx", None)
        if htmx and request.method == "GET" and response.status_code == 200:
            here = request.get_full_path()
            if htmx.target == "main" and here != htmx.current_url_abs_path:
                response.headers.setdefault("HX-Push-Url", here)
        return response

    return middleware


def errors(get_response: Answer) -> Answer:
    """Give a failed request a reference that the person sees and the log holds."""

    def middleware(request: HttpRequest) -> HttpResponse:
        request.reference = secrets.token_hex(4)
        response = get_response(request)
        response.headers[MARK] = "1"
        if response.status_code == 403:
            logs.note("denied", request)
        elif response.status_code >= 500:
            log.error(
                "%s %s answered %s, reference %s",
                request.method,
                json.dumps(request.path),
                response.status_code,
                request.reference,
            )
        return response

    return middleware
