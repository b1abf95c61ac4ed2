"""Events: listed, read, written down, changed, deleted."""

from django.contrib import messages
from django.http import HttpResponse
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_safe

from builds.events.actions import add, change, take_out
from builds.events.pages import entered_for, entry_lines, jobs_to_do, withdrawn_lines
from builds.gear.pages import event_gear
from builds.plan.facts.stored import shown_to
from builds.plan.pages.nights import night_views
from builds.plan.views.following import follows
from builds.travel.facts import troubles_on
from garage import clock
from garage.access import refuse_arranging, refuse_presence, refuse_working
from garage.forms.events import EventForm
from garage.http import GarageRequest, editable, once, page, require, see, visible
from garage.models import Event, Share
from garage.refusals import refused_aloud, refused_at


@require_safe
def event_list(request: GarageRequest) -> HttpResponse:
    rows, at = Event.objects.visible_to(request.member), clock.now()
    context = {
        "upcoming": rows.upcoming(at).prefetch_related("entries__vehicle"),
        "past": rows.past(at).prefetch_related("entries__vehicle")[:50],
        "arranges": refuse_arranging(request.member) is None,
    }
    return page(request, "builds/events/event_list.html", context, menu="events")


@require_safe
@follows
def event_page(request: GarageRequest, pk: int) -> HttpResponse:
    event, at = visible(Event, request.member, pk=pk), clock.now()
    withdrawn, entries, plan = withdrawn_lines(event, at), entered_for(event), shown_to(request.member)
    to_do = jobs_to_do(entries)
    context = {
        "event": event,
        "lines": entry_lines(event, entries, to_do, plan, at),
        "troubles": troubles_on(event, request.member, at),
        "nights": night_views(event.garage, event.nights.select_related("event"), plan, at),
        "open_jobs": len(to_do),
        "sees_who": refuse_presence(request.member) is None,
        "people": event.people.active().select_related("person"),
        "withdrawn": withdrawn,
        "asks_withdrawn": any(line.asks for line in withdrawn),
        "gear": event_gear(event, entries, at),
        "over": event.ends_at <= at,
        "several_days": timezone.localdate(event.ends_at) > timezone.localdate(event.gates_at),
        "begun": event.gates_at <= at,
        "works": refuse_working(request.member) is None,
        "arranges": refuse_arranging(request.member) is None,
        "shares": Share.objects.visible_to(request.member).filter(event=event).live(at),
    }
    return page(request, "builds/events/event_page.html", context, menu="events")


@once
def event_add(request: GarageRequest) -> HttpResponse:
    require(refuse_arranging(request.member))
    form = EventForm(request.POST or None, garage=request.member.garage, at=clock.now())
    if form.is_valid():
        told = dict(form.cleaned_data)
        cars = told.pop("cars", ())
        event = add(request.member.garage, cars, at=clock.now(), **told)
        messages.success(request, f"{event} is in the book{'' if cars else ': enter the cars next'}.")
        return see(reverse("event_page", args=[event.pk]))
    return page(request, "builds/events/event_form.html", form=form, menu="events")


@once
def event_edit(request: GarageRequest, pk: int) -> HttpResponse:
    event = editable(Event, request.member, pk=pk)
    form = EventForm(request.POST or None, garage=event.garage, at=clock.now(), event=event)
    if form.is_valid():
        with refused_at(form):
            change(event, at=clock.now(), **form.cleaned_data)
            messages.success(request, f"{event} is changed.")
            return see(reverse("event_page", args=[pk]))
    return page(request, "builds/events/event_form.html", {"event": event}, form=form, menu="events")


@once
def event_delete(request: GarageRequest, pk: int) -> HttpResponse:
    event = editable(Event, request.member, pk=pk)
    if request.method == "POST":
        with refused_aloud(request):
            take_out(event, at=clock.now())
            messages.success(request, f"{event} is deleted.")
            return see(reverse("event_list"))
        return see(reverse("event_page", args=[pk]))
    return page(request, "builds/events/event_delete.html", {"event": event}, menu="events")
