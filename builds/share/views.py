"""Share links: made and revoked by the owner, read by whoever has one."""

from typing import Any
from zoneinfo import ZoneInfo

from django.conf import settings
from django.contrib import messages
from django.contrib.auth.decorators import login_not_required
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from builds.plan.actions.follow import follow
from builds.share.pages.links import links_of
from builds.share.pages.shared import shared_cars
from garage import clock
from garage.access import refuse_arranging
from garage.actions import shares
from garage.actions.refused import Refused
from garage.address import address_of
from garage.forms.shares import ShareForm
from garage.http import GarageRequest, back, editable, once, page, require, visible
from garage.logs import note
from garage.models import Event, Share, Vehicle


@require_safe
def share_list(request: GarageRequest) -> HttpResponse:
    require(refuse_arranging(request.member))
    context = {"links": links_of(request.member, clock.now())}
    return page(request, "builds/share/share_list.html", context, place="people")


def _thing(request: GarageRequest) -> dict[str, Vehicle | Event]:
    """The car or the event that the address names; foreign or missing is 404."""
    for name, model in (("vehicle", Vehicle), ("event", Event)):
        given = request.GET.get(name, "")
        if given.isascii() and given.isdigit() and len(given) < 19:
            return {name: visible(model, request.member, pk=int(given))}
    raise Http404


def _home(thing: dict[str, Vehicle | Event]) -> str:
    return next(reverse(f"{name}_page", args=[shared.pk]) for name, shared in thing.items())


def _made(request: GarageRequest, context: dict[str, Any], home: str) -> HttpResponse:
    note("share made", request, share=context["share"].pk)
    answer = page(request, "builds/share/share_made.html", context, status=201)
    answer["Location"] = home  # a double tap goes there: the token is kept nowhere
    return answer


@once
def share_add(request: GarageRequest) -> HttpResponse:
    require(refuse_arranging(request.member))
    thing = _thing(request)
    form = ShareForm(request.POST or None)
    context = {"thing": next(iter(thing.values())), **thing}
    if form.is_valid():
        try:
            share, token = shares.make(by=request.member, at=clock.now(), **thing, **form.cleaned_data)
        except Refused as refused:
            form.add_error(None, str(refused))
        else:
            address = settings.PUBLIC_URL + reverse("share_page", args=[token])
            return _made(request, {**context, "address": address, "share": share}, _home(thing))
    return page(request, "builds/share/share_add.html", context, form=form)


@require_POST
@once
def share_revoke(request: GarageRequest, pk: int) -> HttpResponse:
    share = editable(Share, request.member, pk=pk)
    shares.revoke(share, at=clock.now())
    note("share revoked", request, share=share.pk)
    messages.success(request, f"The link …{share.tail} is dead.")
    return back(request, reverse("vehicle_list"))


@login_not_required
@require_safe
def share_page(request: HttpRequest, token: str) -> HttpResponse:
    at = clock.now()
    share = shares.open_by(token, address=address_of(request), at=at)
    if share is None:  # wrong, revoked, over, malformed or too many guesses: all the same
        answer = render(request, "404.html", status=404)
    else:
        follow(share.garage, at=at)
        note("share opened", request, share=share.pk)
        with timezone.override(ZoneInfo(share.garage.time_zone)):
            context = {"share": share, "cars": shared_cars(share, at), "at": at}
            # Drawn here, not after the view as a page is: it tells the garage's time, not the server's.
            answer = render(request, "builds/share/share_page.html", context)
    answer["Referrer-Policy"] = "no-referrer"
    answer["X-Robots-Tag"] = "noindex, nofollow"
    return answer
