"""Answers to requests that went wrong before or behind a view."""

import sys

from django.http import HttpRequest, HttpResponse, HttpResponseBadRequest
from django.shortcuts import render
from django.template.loader import render_to_string
from django.views.decorators.csrf import requires_csrf_token

from garage.engine.storage_faults import storage_fault
from garage.uploads import TooMuch

STALE = (
    "This page was drawn before you signed in, or for somebody else, or the browser"
    " keeps no cookies: reload it and send it again."
)


@requires_csrf_token
def csrf_failed(request: HttpRequest, reason: str = "") -> HttpResponse:
    return render(request, "403.html", {"exception": STALE}, status=403)


def bad_request(request: HttpRequest, exception: Exception) -> HttpResponse:
    # No context processors: they ask for the host, which may be what is wrong.
    if isinstance(exception, TooMuch):
        return HttpResponse(render_to_string("400.html", {"sentence": exception}), status=413)
    return HttpResponseBadRequest(render_to_string("400.html"))


def server_error(request: HttpRequest) -> HttpResponse:
    # No context processors: whatever broke may break again in them.
    fault = storage_fault(sys.exc_info()[1])
    shown = {"request": {"reference": getattr(request, "reference", "")}, "fault": fault}
    return HttpResponse(render_to_string("500.html", shown), status=fault.status if fault else 500)
