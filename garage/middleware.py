"""Middleware: who asks in which garage, headers of every answer, errors that leave a trace."""

import logging
import secrets
from collections.abc import Callable
from zoneinfo import ZoneInfo

from django.http import HttpRequest, HttpResponse
from django.utils import timezone
from django.utils.cache import patch_cache_control, patch_vary_headers

from garage.models import Membership

Answer = Callable[[HttpRequest], HttpResponse]
log = logging.getLogger("garage.errors")
CHOSEN = "garage"


def member(get_response: Answer) -> Answer:
    """Set `request.member` afresh on every request, so that a revoked membership ends at once."""

    def middleware(request: HttpRequest) -> HttpResponse:
        request.member = None  # GarageRequest declares it
        request.scheme_wanted = ""  # light, dark or the phone's own
        if request.user.is_authenticated:
            request.scheme_wanted = request.user.scheme
            mine = list(
                Membership.objects.active().of(request.user).select_related("garage", "person")
            )
            chosen = request.session.get(CHOSEN)
            found = next(
                (row for row in mine if row.garage_id == chosen), mine[0] if mine else None
            )
            request.member = found
            if found:
                with timezone.override(ZoneInfo(found.garage.time_zone)):
                    return get_response(request)
        return get_response(request)

    return middleware


def answers(get_response: Answer) -> Answer:
    """Private pages stay out of caches; a page and its fragment are told apart."""

    def middleware(request: HttpRequest) -> HttpResponse:
        response = get_response(request)
        patch_vary_headers(response, ["HX-Request"])
        response.headers.setdefault("Cross-Origin-Opener-Policy", "same-origin")
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
        if response.status_code >= 500:
            log.error(
                "%s %s answered %s, reference %s",
                request.method,
                request.path,
                response.status_code,
                request.reference,
            )
        return response

    return middleware
