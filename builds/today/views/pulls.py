"""What is to be pulled from the shelf, on screen and on paper."""

from django.http import HttpResponse
from django.views.decorators.http import require_safe

from builds.plan.views.following import follows
from builds.today.facts.asked import Asked
from builds.today.pages.asked import asked_words
from builds.today.pages.pull_list import load_pull_list
from builds.today.pages.pull_sheet import pull_sheet_rows
from builds.today.sheets import pull
from builds.work.models.job import Job
from garage import clock
from garage.access import refuse_working
from garage.http import GarageRequest, page, pdf, visible
from garage.models import Event, Membership


@require_safe
@follows
def pull_list(request: GarageRequest) -> HttpResponse:
    asked = asked_for(request)
    context = {
        "view": load_pull_list(request.member.garage, clock.now(), asked),
        "asked": asked,
        "works": refuse_working(request.member) is None,
    }
    return page(request, "builds/today/pull_list.html", context, menu="shelf")


@require_safe
@follows
def pull_sheet(request: GarageRequest) -> HttpResponse:
    asked = asked_for(request)
    rows = pull_sheet_rows(request.member.garage, clock.now(), asked)
    return pdf(pull.pull_sheet(rows), f"pull {asked_words(asked)}")


def asked_for(request: GarageRequest) -> Asked:
    """The one thing that the address names; what names nothing asks for the whole evening."""
    for name, model in (("job", Job), ("person", Membership), ("event", Event)):
        given = request.GET.get(name, "")
        if given.isascii() and given.isdecimal() and len(given) < 19:
            return Asked(**{name: visible(model, request.member, pk=int(given))})
    return Asked()
