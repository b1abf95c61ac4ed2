"""Visits: links made, revoked and answered by the owner; evenings said by whoever holds one."""

from datetime import date
from typing import Any
from zoneinfo import ZoneInfo

from django.contrib import messages
from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_POST

from builds.plan.actions.follow import follow
from builds.visits.pages import evenings_of
from garage import clock
from garage.access import refuse_arranging
from garage.actions import visits
from garage.address import address_of
from garage.engine.words import wait_words
from garage.facts.presence import local_minute
from garage.forms.visits import VisitForm, VisitLinkForm, VisitTakeForm
from garage.http import GarageRequest, as_seen, back, editable, key_of, once, page, require, see, shown_once
from garage.logs import note
from garage.models import VisitLink
from garage.refusals import refused_at


@once
def visit_link_add(request: GarageRequest) -> HttpResponse:
    require(refuse_arranging(request.member))
    form = VisitLinkForm(request.POST or None, garage=request.member.garage)
    if form.is_valid():
        sent = form.cleaned_data
        link, token = visits.make(by=request.member, of=sent["member"], days=sent["days"], at=clock.now())
        note("visit link made", request, link=link.pk)
        address, home = reverse("visit_page", args=[token]), reverse("share_list")
        return shown_once(request, "builds/visits/visit_link_made.html", {"link": link}, address=address, home=home)
    return page(request, "builds/visits/visit_link_add.html", form=form, menu="people")


@require_POST
@once
def visit_link_revoke(request: GarageRequest, pk: int) -> HttpResponse:
    link = editable(VisitLink, request.member, pk=pk)
    visits.revoke(link, at=clock.now())
    note("visit link revoked", request, link=link.pk)
    messages.success(request, f"The link …{link.tail} is revoked. Evenings that are in the plan stay.")
    return back(request, reverse("share_list"))


@once
def visit_take(request: GarageRequest, pk: int) -> HttpResponse:
    link = editable(VisitLink, request.member, pk=pk)
    form = VisitTakeForm(request.POST or None, link=link)
    today, _ = local_minute(link.garage, clock.now())
    if request.method == "POST" and form.is_valid():
        with refused_at(form, "member"):
            sent = form.cleaned_data
            member = visits.take(link, member=sent["member"], today=today, skills=sent.get("skills", ()))
            note("visit taken", request, link=link.pk, whose=member.person_id)
            messages.success(request, f"{member} is in the plan on those evenings.")
            return see(reverse("today"))
    context = {"link": link, "visits": link.visits.ahead(today)}
    return page(request, "builds/visits/visit_take.html", context, form=form, menu="today")


@require_POST
@once
def visit_refuse(request: GarageRequest, pk: int) -> HttpResponse:
    link = editable(VisitLink, request.member, pk=pk)
    visits.refuse(link)
    messages.success(request, f"{link} reads “not this time”.")
    return back(request, reverse("today"))


@login_not_required
@require_http_methods(["GET", "HEAD", "POST"])
def visit_page(request: HttpRequest, token: str) -> HttpResponse:
    at = clock.now()
    link = visits.open_by(token, address=address_of(request), at=at)
    if link is None:  # wrong, revoked, over, malformed or too many guesses: all the same
        answer = render(request, "404.html", status=404)
    else:
        with timezone.override(ZoneInfo(link.garage.time_zone)):
            answer = _visit(request, link, token)
    # Not `no-referrer`: the browser would then send `Origin: null`, which no form may have.
    answer["Referrer-Policy"] = "strict-origin"
    answer["X-Robots-Tag"] = "noindex, nofollow"
    return answer


def _visit(request: HttpRequest, link: VisitLink, token: str) -> HttpResponse:
    """Not `once`: nobody is signed in. Saying a day twice is saying it once."""
    at = clock.now()
    today, _ = local_minute(link.garage, at)
    form = VisitForm(as_seen(request.POST) if request.method == "POST" else None, link=link, today=today)
    if request.method == "POST":
        wait = visits.may_say(link, at=at)
        if wait:
            note("throttled", request, seconds=wait)
            form = VisitForm(link=link, today=today)
            return _drawn(request, link, form, sentence=f"Too many answers: wait {wait_words(wait)}.", status=429)
        if "not" in request.POST:
            return _withdrawn(request, link, today)
        key = key_of(request)
        if key is None:
            form.add_error(None, "This form came without its key: press the button again.")
        if form.is_valid():
            with refused_at(form, "days"):
                own = visits.say(link, **form.cleaned_data, key=str(key), at=at)
                note("visit said", request, link=link.pk)
                messages.success(request, "Said. Thank you.")
                return see(reverse("visit_page", args=[own or token]))
    return _drawn(request, link, form)


def _withdrawn(request: HttpRequest, link: VisitLink, today: date) -> HttpResponse:
    given = request.POST.get("not", "")
    pk = int(given) if given.isascii() and given.isdigit() and len(given) < 19 else 0
    visit = link.visits.ahead(today).filter(pk=pk).first()  # what is over stays as it was
    if visit:
        visits.withdraw(visit, at=clock.now())
        note("visit withdrawn", request, link=link.pk)
        messages.success(request, "Said: you cannot come that day.")
    return see(request.path)


def _drawn(request: HttpRequest, link: VisitLink, form: VisitForm, status: int = 0, **more: Any) -> HttpResponse:
    follow(link.garage, at=clock.now())
    status = status or (422 if form.is_bound else 200)
    evenings = [] if link.asks_who else evenings_of(link, clock.now())
    context = {"link": link, "form": form, "evenings": evenings, "zone": timezone.get_current_timezone_name(), **more}
    # Drawn here, not after the view as a page is: it tells the garage's time, not the server's.
    return render(request, "builds/visits/visit_page.html", context, status=status)
