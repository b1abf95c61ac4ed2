"""Hours: the week of a person, days that differ, and until when tonight."""

from django.contrib import messages
from django.http import HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_POST

from garage import clock
from garage.access import refuse_hours
from garage.actions import hours
from garage.facts.presence import local_minute
from garage.forms.days import DayForm, TonightForm, WeekForm
from garage.http import GarageRequest, back, once, page, require, see, visible
from garage.models import DayHours, Membership
from garage.pages.people import people as cards
from garage.pages.people import suggested_end
from garage.refusals import refused_at


def _whose(request: GarageRequest, pk: int) -> Membership:
    whose: Membership = visible(Membership, request.member, pk=pk, left_at=None)
    require(refuse_hours(request.member, whose))
    return whose


@once
def hours_edit(request: GarageRequest, pk: int) -> HttpResponse:
    whose = _whose(request, pk)
    form = WeekForm(request.POST or None, member=whose)
    if form.is_valid():
        hours.set_week(whose, week=form.cleaned_data["week"])
        messages.success(request, f"The week of {whose} is changed.")
        return see(reverse("person_page", args=[pk]))
    return page(request, "garage/hours_edit.html", {"whose": whose}, form=form, menu="people")


@once
def day_hours_add(request: GarageRequest, pk: int) -> HttpResponse:
    whose = _whose(request, pk)
    today, _ = local_minute(whose.garage, clock.now())
    form = DayForm(request.POST or None, today=today)
    if form.is_valid():
        with refused_at(form, "hours"):
            hours.set_day(whose, **form.cleaned_data)
            messages.success(request, "The day is changed.")
            return see(reverse("person_page", args=[pk]))
    return page(request, "garage/day_hours_add.html", {"whose": whose}, form=form, menu="people")


@require_POST
@once
def day_hours_delete(request: GarageRequest, pk: int) -> HttpResponse:
    row = visible(DayHours, request.member, pk=pk)
    require(refuse_hours(request.member, row.member))
    hours.clear_day(row.member, day=row.day)
    messages.success(request, "That day has the week's hours again.")
    return back(request, reverse("person_page", args=[row.member_id]))


@once
def hours_tonight(request: GarageRequest, pk: int) -> HttpResponse:
    whose, at = _whose(request, pk), clock.now()
    day, now = local_minute(whose.garage, at)
    if request.method == "POST" and "out" in request.POST:
        hours.home_now(whose, day=day, now=now)
        messages.success(request, f"{whose} is not in any more today.")
        return back(request, reverse("person_page", args=[pk]))
    form = TonightForm(request.POST or None, initial={"until": suggested_end(whose.garage, at)})
    if form.is_valid():
        with refused_at(form, "until"):
            hours.in_until(whose, day=day, now=now, until=form.cleaned_data["until"])
            messages.success(request, f"{whose} is in until {request.POST['until']}.")
            return back(request, reverse("person_page", args=[pk]))
    context = {"whose": whose, "in_today": cards(request.member, at=at, pk=pk)[0].in_today}
    return page(request, "garage/hours_tonight.html", context, form=form, menu="people")
