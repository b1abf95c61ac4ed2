"""What the jobs want: how each want stands, what to buy, what to pull."""

from django.http import HttpResponse
from django.views.decorators.http import require_safe

from builds.loaders.pull_list import load_pull_list
from builds.loaders.want_page import load_want_page
from builds.models import Job
from garage import clock
from garage.access import refuse_working
from garage.http import GarageRequest, page, visible


@require_safe
def want_list(request: GarageRequest) -> HttpResponse:
    context = {
        "view": load_want_page(request.member.garage, clock.now()),
        "works": refuse_working(request.member) is None,
    }
    return page(request, "builds/want_list.html", context, place="shelf")


@require_safe
def pull_list(request: GarageRequest) -> HttpResponse:
    asked = request.GET.get("job", "")
    job = (
        visible(Job, request.member, pk=int(asked))
        if asked.isdecimal() and len(asked) < 19
        else None
    )
    context = {
        "view": load_pull_list(request.member.garage, clock.now(), job),
        "job": job,
        "works": refuse_working(request.member) is None,
    }
    return page(request, "builds/pull_list.html", context, place="shelf")
