"""Share links as the owner has them: made, listed, revoked, and what was said by them."""

from django.contrib import messages
from django.http import Http404, HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe

from builds.calendar.facts import calendar_facts
from builds.calendar.pages import days_ahead
from builds.needs.actions import part_offers
from builds.needs.models import PartOffer
from builds.plan.facts.stored import shown
from builds.plan.views.following import follows
from builds.share.pages.guests import tickable
from builds.share.pages.links import links_of
from builds.share.pages.shared import shared_cars
from builds.share.pages.shown import cars_of, photos_of_cars
from builds.work.facts.work import load_work
from garage import clock
from garage.access import refuse_arranging
from garage.actions import shares
from garage.forms.shares import ShareForm
from garage.http import GarageRequest, as_seen, back, editable, once, page, require, shown_once, visible
from garage.logs import note
from garage.models import Event, Share, Vehicle
from garage.refusals import refused_at


@require_safe
def share_list(request: GarageRequest) -> HttpResponse:
    require(refuse_arranging(request.member))
    context = {"links": links_of(request.member, clock.now())}
    return page(request, "builds/share/share_list.html", context, menu="people")


def _thing(request: GarageRequest) -> dict[str, Vehicle | Event]:
    """The car or the event that the address names, none for all cars; foreign or missing is 404."""
    if request.GET.get("fleet") == "1":
        return {}
    for name, model in (("vehicle", Vehicle), ("event", Event)):
        given = request.GET.get(name, "")
        if given.isascii() and given.isdigit() and len(given) < 19:
            return {name: visible(model, request.member, pk=int(given))}
    raise Http404


def _home(thing: dict[str, Vehicle | Event]) -> str:
    pages = [reverse(f"{name}_page", args=[shared.pk]) for name, shared in thing.items()]
    return pages[0] if pages else reverse("vehicle_list")


@follows
def share_add(request: GarageRequest) -> HttpResponse:
    require(refuse_arranging(request.member))
    thing = _thing(request)
    draft = Share(garage=request.member.garage, **thing)
    cars = cars_of(draft)
    sent = as_seen(request.POST) or None  # as `once` would have it
    form = ShareForm(sent, photos=photos_of_cars(cars), jobs=tickable(draft, cars))
    phrase = shares.hashed(form.cleaned_data["phrase"]) if form.is_valid() else ""
    return _add(request, form, thing, phrase)


@once
def _add(request: GarageRequest, form: ShareForm, thing: dict[str, Vehicle | Event], phrase: str) -> HttpResponse:
    draft = Share(garage=request.member.garage, **thing)
    context = {"thing": draft.thing or "all cars", "home": _home(thing)}
    if form.is_valid():
        with refused_at(form):
            made = {"by": request.member, "at": clock.now(), "fleet": not thing}
            share, token = shares.make(**made, **thing, **{**form.cleaned_data, "phrase": phrase})
            note("share made", request, share=share.pk)
            context["share"] = share
            address, home = reverse("share_page", args=[token]), _home(thing)
            return shown_once(request, "builds/share/share_made.html", context, address=address, home=home)
    at, cars = clock.now(), cars_of(draft)
    work, plan = load_work(draft.garage, at), shown(draft.garage)
    context["cars"] = shared_cars(draft, work, plan)
    context["days"] = days_ahead(calendar_facts(work, plan), {car.pk for car in cars})
    return page(request, "builds/share/share_add.html", context, form=form)


@require_POST
@once
def share_revoke(request: GarageRequest, pk: int) -> HttpResponse:
    share = editable(Share, request.member, pk=pk)
    shares.revoke(share, at=clock.now())
    note("share revoked", request, share=share.pk)
    messages.success(request, f"The link …{share.tail} is revoked.")
    return back(request, reverse("vehicle_list"))


@require_POST
@once
def share_offer_seen(request: GarageRequest, pk: int) -> HttpResponse:
    offer = editable(PartOffer, request.member, pk=pk)
    part_offers.put_aside(offer, at=clock.now())
    messages.success(request, f"What {offer.name} has is seen, and off this page.")
    return back(request, reverse("today"))
