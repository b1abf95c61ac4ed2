"""No person and no garage asks so much of the server that others wait; counted by each web process for itself."""

import time
from collections.abc import Callable
from typing import Any

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from garage.engine.limits import Allowance, Meter
from garage.engine.words import wait_words
from garage.http import View
from garage.logs import note

WORDS = {"saves": "saved", "searches": "tried", "uploads": "uploaded"}
meter = Meter()


def tries_plans(view: View) -> View:
    """A view that has plans made, or tries some before it answers."""
    view.tries_plans = True
    return view


def limits(get_response: Callable[[HttpRequest], HttpResponse]) -> Any:
    """Before anything reads a form: nothing of what is too much is taken in, or kept."""

    def middleware(request: HttpRequest) -> HttpResponse:
        return get_response(request)

    def counted(request: HttpRequest, view: Any, args: Any, kwargs: Any) -> HttpResponse | None:
        member = getattr(request, "member", None)
        kind = _kind(request, view)
        if member is None or not kind:
            return None
        most = settings.MOST_A_MINUTE[kind]
        held = (
            Allowance(f"{kind} person {member.person_id}", most),
            Allowance(f"{kind} garage {member.garage_id}", most * settings.MOST_OF_A_GARAGE),
        )
        over = meter.claim(held, time.monotonic())
        return _too_much(request, kind, *over) if over else None

    middleware.process_view = counted
    return middleware


def _kind(request: HttpRequest, view: Any) -> str:
    """What a request is counted as; nothing where a page is only read."""
    if getattr(view, "tries_plans", False):
        return "searches"
    if request.method != "POST":
        return ""
    return "uploads" if request.content_type.startswith("multipart/") and hasattr(view, "file_limit") else "saves"


def _too_much(request: HttpRequest, kind: str, limit: Allowance, seconds: int) -> HttpResponse:
    note("throttled", request, seconds=seconds, what=kind)
    whose = "You" if "person" in limit.name else "This garage"
    sentence = (
        f"{whose} asked for more than {limit.most} {kind} in a minute, and nothing of this one was {WORDS[kind]}:"
        f" wait {wait_words(seconds)}, then send it again."
    )
    answer = render(request, "400.html", {"sentence": sentence}, status=429)
    answer["Retry-After"] = str(seconds)
    return answer
