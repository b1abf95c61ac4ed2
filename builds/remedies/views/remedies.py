"""What would it take: for a late car, why, what would get it there, and doing it."""

from django.contrib import messages
from django.http import HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe
from django_htmx.http import HttpResponseClientRedirect

from builds.plan.views.following import follows
from builds.planner.problem import ProblemError
from builds.remedies.actions import hunts, remedies
from builds.remedies.deeds.deed import Deed, refusal_of
from builds.remedies.deeds.kinds import parse_all
from builds.remedies.facts.deed_rows import DeedRows
from builds.remedies.pages.known import read_known, read_seconds, read_spent
from builds.remedies.pages.remedies import odds_sentence, remedy_page, round_of, stopped_round
from garage import clock
from garage.access import refuse_working
from garage.actions.refused import Refused
from garage.http import GarageRequest, once, page, require, see, visible
from garage.limits import tries_plans
from garage.models import Entry
from garage.refusals import refused_aloud


@tries_plans
@require_safe
@follows
def remedy_list(request: GarageRequest, pk: int) -> HttpResponse:
    entry = visible(Entry, request.member, beside=("event", "vehicle"), pk=pk)
    seconds = read_seconds(request.GET.get("whole"))
    takes = hunts.what_it_takes(entry, at=clock.now(), seconds=seconds, reader=request.member)
    context = {"view": remedy_page(takes, request.member), "works": refuse_working(request.member) is None}
    return page(request, "builds/remedies/remedy_list.html", context, menu="plan")


@tries_plans
@require_safe
@follows
def remedy_more(request: GarageRequest, pk: int) -> HttpResponse:
    entry = visible(Entry, request.member, beside=("event", "vehicle"), pk=pk)
    if not request.htmx:
        return see(reverse("remedy_list", args=[pk]))
    known = request.GET.get("known", "")
    if "stop" in request.GET:
        context = {"entry": entry, "round": stopped_round(known)}
        return page(request, "builds/remedies/remedy_stopped_part.html", context, menu="plan")
    spent = read_spent(request.GET.get("spent", ""))
    try:
        tried = hunts.next_round(entry, read_known(known), spent=spent, at=clock.now())
    except ProblemError:
        tried = None
    if tried is None:  # the page says why, and cannot be drawn inside of itself
        return HttpResponseClientRedirect(reverse("remedy_list", args=[pk]))
    context = {
        "entry": entry,
        "round": round_of(tried, request.member),
        "works": refuse_working(request.member) is None,
    }
    return page(request, "builds/remedies/remedy_more.html", context, menu="plan")


@tries_plans
@require_safe
@follows
def remedy_odds(request: GarageRequest, pk: int) -> HttpResponse:
    entry = visible(Entry, request.member, beside=("event", "vehicle"), pk=pk)
    try:
        said = odds_sentence(hunts.odds_of(entry, parse_all(request.GET.get("do", "")), at=clock.now()))
    except (KeyError, ValueError):
        said = "Not known: something changed meanwhile."
    # Into a page that stands: the part alone, for a whole fragment would wipe what was said there.
    template = "builds/remedies/remedy_odds_part.html" if request.htmx else "builds/remedies/remedy_odds.html"
    return page(request, template, {"entry": entry, "said": said}, menu="plan")


def _deeds(request: GarageRequest) -> tuple[Deed, ...]:
    """What the button sent, as far as the one who pressed it may do it."""
    try:
        deeds = parse_all(request.POST.get("do", ""))
        if not deeds:
            raise ValueError
        require(refusal_of(deeds, DeedRows(request.member.garage), request.member))
    except (KeyError, ValueError) as error:
        raise Refused("This cannot be done any more: look again.") from error
    return deeds


@require_POST
@once
def remedy_apply(request: GarageRequest, pk: int) -> HttpResponse:
    visible(Entry, request.member, pk=pk)
    require(refuse_working(request.member))
    with refused_aloud(request):
        said = remedies.apply(_deeds(request), by=request.member, at=clock.now())
        messages.success(request, said)
    return see(reverse("remedy_list", args=[pk]))
