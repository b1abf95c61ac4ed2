"""Calendars: made and revoked by whoever they are for, read by a phone that has the address."""

from zoneinfo import ZoneInfo

from django.contrib import messages
from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.utils import timezone
from django.utils.cache import get_conditional_response, patch_cache_control
from django.utils.http import quote_etag
from django.views.decorators.http import require_POST, require_safe

from builds.calendar import actions
from builds.calendar.facts import calendar_facts
from builds.calendar.forms import CalendarForm
from builds.calendar.models import CalendarFeed
from builds.calendar.pages import calendar_items
from builds.calendar.sheet import feed_bytes
from builds.plan.actions.follow import follow
from builds.plan.facts.stored import shown
from builds.work.facts.work import load_work
from garage import clock
from garage.access import refuse_own_calendar
from garage.actions.refused import Refused
from garage.actions.sign_in import digest
from garage.address import address_of
from garage.http import GarageRequest, back, editable, once, page, shown_once
from garage.logs import note
from garage.refusals import refused_at


@require_safe
def calendar_page(request: GarageRequest) -> HttpResponse:
    feeds = CalendarFeed.objects.visible_to(request.member).live().select_related("member__person")
    context = {"feeds": feeds, "looks": refuse_own_calendar(request.member) is not None}
    return page(request, "builds/calendar/calendar_page.html", context, menu="people")


@once
def calendar_add(request: GarageRequest) -> HttpResponse:
    form = CalendarForm(request.POST or None, member=request.member)
    if form.is_valid():
        with refused_at(form, "of"):
            feed, token = actions.make(by=request.member, whole=form.whole, at=clock.now())
            note("calendar made", request, calendar=feed.pk)
            address, home = reverse("calendar_feed", args=[token]), reverse("calendar_page")
            return shown_once(request, "builds/calendar/calendar_made.html", {"feed": feed}, address=address, home=home)
    return page(request, "builds/calendar/calendar_add.html", form=form, menu="people")


@require_POST
@once
def calendar_revoke(request: GarageRequest, pk: int) -> HttpResponse:
    feed = editable(CalendarFeed, request.member, pk=pk)
    actions.revoke(feed, at=clock.now())
    note("calendar revoked", request, calendar=feed.pk)
    messages.success(request, f"The calendar …{feed.tail} is revoked.")
    return back(request, reverse("calendar_page"))


@login_not_required
@require_safe
def calendar_feed(request: HttpRequest, token: str) -> HttpResponse:
    at = clock.now()
    feed = actions.open_by(token, address=address_of(request), at=at)
    try:
        answer = _told(request, feed) if feed else _dead(request)
    except Refused:  # revoked while it was drawn
        answer = _dead(request)
    answer["Referrer-Policy"] = "no-referrer"
    answer["X-Robots-Tag"] = "noindex, nofollow"
    return answer


def _dead(request: HttpRequest) -> HttpResponse:
    """Wrong, revoked, of somebody who left, malformed or too many guesses: all the same."""
    return render(request, "404.html", status=404)


def _told(request: HttpRequest, feed: CalendarFeed) -> HttpResponse:
    body = _body(feed)
    answer = HttpResponse(body, content_type="text/calendar; charset=utf-8")
    answer["Content-Disposition"] = 'inline; filename="garage.ics"'
    etag = quote_etag(digest(body.decode()))
    answer["ETag"] = etag
    conditional: HttpResponse = get_conditional_response(request, etag=etag, response=answer)
    patch_cache_control(conditional, private=True, no_cache=True)
    return conditional


def _body(feed: CalendarFeed) -> bytes:
    member, at = feed.member, clock.now()
    garage, zone = member.garage, ZoneInfo(member.garage.time_zone)
    follow(garage, at=at)
    with timezone.override(zone):
        facts = calendar_facts(load_work(garage, at), shown(garage))
        items = calendar_items(facts, member, feed.whole)
    told = actions.tell(feed, items, at=at)
    name = garage.name if feed.whole else f"{member.name}, {garage.name}"
    return feed_bytes(name, zone, facts.since, zip(items, told, strict=True))
