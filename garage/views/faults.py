"""Answers to requests that went wrong before or behind a view."""

from django.http import HttpRequest, HttpResponse, HttpResponseBadRequest, HttpResponseServerError
from django.shortcuts import render
from django.template.loader import render_to_string
from django.views.decorators.csrf import requires_csrf_token

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
    reference = getattr(request, "reference", "")
    return HttpResponseServerError(render_to_string("500.html", {"request": {"reference": reference}}))
