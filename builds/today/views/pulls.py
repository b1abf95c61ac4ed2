"""What the jobs want: how each want stands, what to buy, what to pull."""

from django.http import HttpResponse
from django.views.decorators.http import require_safe

from builds.needs.facts.asked import Asked
from builds.needs.pages.want_page import load_want_page
from builds.today.facts.pull_list import load_pull_list
from builds.work.models.job import Job
from garage import clock
from garage.access import refuse_working
from garage.http import GarageRequest, page, visible
from garage.models import Event, Membership


@require_safe
def want_list(request: GarageRequest) -> HttpResponse:
    context = {
        "view": load_want_page(request.member.garage, clock.now()),
        "works": refuse_working(request.member) is None,
    }
    return page(request, "builds/needs/want_list.html", context, place="shelf")


@require_safe
def pull_list(request: GarageRequest) -> HttpResponse:
    asked = asked_for(request)
    context = {
        "view": load_pull_list(request.member.garage, clock.now(), asked),
        "asked": asked,
        "works": refuse_working(request.member) is None,
    }
    return page(request, "builds/today/pull_list.html", context, place="shelf")


def asked_for(request: GarageRequest) -> Asked:
    """The one thing that the address names; what names nothing asks for the whole evening."""
    for name, rows in (("job", Job), ("person", Membership), ("event", Event)):
        asked = request.GET.get(name, "")
        if asked.isascii() and asked.isdecimal() and len(asked) < 19:
            return Asked(**{name: visible(rows, request.member, pk=int(asked))})
    return Asked()
