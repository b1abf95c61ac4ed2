"""The event's day: pages that open without signal, and the writes that were made there."""

from pathlib import Path

from django.contrib import messages
from django.contrib.auth.decorators import login_not_required
from django.contrib.staticfiles import finders
from django.http import Http404, HttpResponse, JsonResponse
from django.middleware.csrf import get_token
from django.templatetags.static import static
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe

from builds.joints.engine.joints import OFF_SAID
from builds.paddock import actions as paddock
from builds.paddock.forms import WriteForm
from builds.paddock.pages.gear import paddock_gear
from builds.paddock.pages.paddock import day_of, item_view, items_of, paddock_view
from garage import clock
from garage.access import refuse_working
from garage.actions.refused import Refused
from garage.http import GarageRequest, once, page, require, see, visible
from garage.member_mark import mark_of
from garage.models import Event
from garage.refusals import say_refused
from garage.tap_key import tap_key

CLASHED = "clash"  # asked of a line whose write did not stand: a repeat is not told that all is well


@require_safe
def paddock_list(request: GarageRequest) -> HttpResponse:
    events = Event.objects.visible_to(request.member).upcoming(clock.now())
    answer = page(request, "builds/paddock/paddock_list.html", {"events": events}, menu="events")
    answer["Paddock-Member"] = mark_of(request.member)
    return answer


@require_safe
def paddock_page(request: GarageRequest, pk: int) -> HttpResponse:
    event = visible(Event, request.member, pk=pk)
    day = day_of(event, request.member, clock.now())
    gear = paddock_gear(day)
    context = {
        "view": paddock_view(day),
        "gear": gear,
        "gear_count": sum(len(group.lines) for group in gear),
        "works": refuse_working(request.member) is None,
        "off_said": OFF_SAID,
    }
    answer = page(request, "builds/paddock/paddock_page.html", context, menu="events")
    answer["Paddock-Member"] = mark_of(request.member)
    return answer


@require_safe
def paddock_state(request: GarageRequest, pk: int) -> HttpResponse:
    event = visible(Event, request.member, pk=pk)
    items = [item.now for item in items_of(day_of(event, request.member, clock.now()))]
    return JsonResponse({"member": mark_of(request.member), "token": get_token(request), "items": items})


@require_safe
def paddock_item(request: GarageRequest, pk: int, item: str) -> HttpResponse:
    """As one item stands: also what a write that came twice is answered."""
    event = visible(Event, request.member, pk=pk)
    if request.accepts("text/html"):
        return see(f"{reverse('paddock_page', args=[pk])}#{item}")
    standing = item_view(event, item, request.member, clock.now())
    if standing is None:
        raise Http404
    clash = {"told": f"It stands otherwise: {standing.words}.", "clash": True} if CLASHED in request.GET else {}
    return JsonResponse(standing.now | clash)


@require_POST
@once
def paddock_write(request: GarageRequest, pk: int) -> HttpResponse:
    event = visible(Event, request.member, pk=pk)
    whose = mark_of(request.member)
    if request.POST.get("member", whose) != whose:  # another signed in meanwhile, in another tab
        return JsonResponse({"told": "Somebody else is signed in now: it waits for whoever wrote it."}, status=409)
    refused = refuse_working(request.member)
    if refused and not request.accepts("text/html"):
        return _said(request, pk, "", refused, clash=False)
    require(refused)
    form, now = WriteForm(request.POST), clock.now()
    try:
        write = form.write(now)
        told = paddock.write(event, write, by=request.member, at=now, key=tap_key(request))
    except Refused as refused:
        return _said(request, pk, "", str(refused), clash=False, asks=refused.field)
    return _said(request, pk, write.item, told.told, clash=told.clash)


def _said(request: GarageRequest, pk: int, item: str, told: str, *, clash: bool, asks: str = "") -> HttpResponse:
    """`asks` names what has to be said beside, so that it is taken: then it is a question."""
    if request.accepts("text/html"):
        if told:
            (messages.error if item else say_refused)(request, told)
        # With scripts off the page comes again, opened where the button was.
        return see(f"{reverse('paddock_page', args=[pk])}{item and f'#{item}'}")
    event = visible(Event, request.member, pk=pk)
    standing = item_view(event, item, request.member, clock.now()) if item else None
    now = standing.now if standing else {}
    # What was refused is judged anew when its answer was lost: 422 keeps no receipt of it.
    answer = JsonResponse({**now, "told": told, "clash": clash, "asks": asks}, status=200 if item else 422)
    if item:
        answer["Location"] = reverse("paddock_item", args=[pk, item]) + (f"?{CLASHED}" if clash else "")
    return answer


@login_not_required
@require_safe
def paddock_worker(request: GarageRequest) -> HttpResponse:
    """From below /paddock/, so that it serves these pages alone."""
    script = Path(str(finders.find("js/paddock_worker.js"))).read_text(encoding="utf-8")
    answer = HttpResponse(script, content_type="text/javascript; charset=utf-8")
    answer["Cache-Control"] = "no-cache"
    return answer


@login_not_required
@require_safe
def paddock_manifest(request: GarageRequest) -> HttpResponse:
    start = reverse("paddock_list")
    icons = [
        {"src": static("icons/mark-192.png"), "sizes": "192x192", "type": "image/png"},
        {"src": static("icons/mark-512.png"), "sizes": "512x512", "type": "image/png"},
        {
            "src": static("icons/mark-512-maskable.png"),
            "sizes": "512x512",
            "type": "image/png",
            "purpose": "maskable",
        },
    ]
    answer = JsonResponse(
        {
            "id": start,
            "name": "Witness Mark",
            "short_name": "Witness Mark",
            "start_url": start,
            "scope": "/",
            "display": "standalone",
            "background_color": "#f6f2e7",
            "theme_color": "#33413c",
            "icons": icons,
            "shortcuts": [{"name": "Today", "url": reverse("today")}],
        },
        content_type="application/manifest+json",
    )
    answer["Cache-Control"] = "max-age=3600"
    return answer
