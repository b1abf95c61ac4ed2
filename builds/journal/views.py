"""The journal, of one thing or of the whole garage."""

from datetime import date, datetime, time, timedelta
from urllib.parse import urlencode

from django.core.paginator import Paginator
from django.http import Http404, HttpResponse
from django.utils import timezone
from django.views.decorators.http import require_safe

from builds.journal.facts import lines_about, thing_of
from builds.journal.forms import JournalForm
from builds.journal.pages import journal_rows, thing_words
from garage.access import refuse_costs, refuse_working
from garage.http import GarageRequest, page, require
from garage.models import JournalLine
from garage.models.journal import JournalLineQuerySet

A_PAGE = 50


def _asked(request: GarageRequest, form: JournalForm) -> tuple[JournalLineQuerySet, object]:
    """The lines, and the thing that they are about, if one was asked for."""
    asked = form.cleaned_data if form.is_valid() else {}
    rows, thing = JournalLine.objects.visible_to(request.member), None
    if asked.get("of"):
        kind, key = asked["of"].split("-")
        thing = thing_of(kind, int(key), request.member)
        if thing is None:
            raise Http404
        rows = lines_about(kind, int(key), request.member)
    if asked.get("who"):
        rows = rows.by(asked["who"])
    if asked.get("device"):
        rows = rows.on(asked["device"])
    if asked.get("day"):
        rows = rows.within(*_day(asked["day"]))
    if refuse_costs(request.member):
        rows = rows.free_of_costs()
    return rows, thing


def _day(day: date) -> tuple[datetime, datetime]:
    """From midnight to midnight in the garage."""
    here = timezone.get_current_timezone()
    return datetime.combine(day, time(), here), datetime.combine(day + timedelta(days=1), time(), here)


@require_safe
def journal_list(request: GarageRequest) -> HttpResponse:
    require(refuse_working(request.member))
    form = JournalForm(request.GET, reader=request.member)
    rows, thing = _asked(request, form)
    lines = Paginator(rows.select_related("member__person").prefetch_related("ties"), A_PAGE).get_page(
        request.GET.get("page")
    )
    query = urlencode({name: value for name, value in request.GET.items() if name in form.fields and value})
    context = {
        "lines": journal_rows(lines.object_list, request.member),
        "page_obj": lines,
        "query": f"{query}&" if query else "",
        "thing": thing_words(thing) if thing else "",
        "asked": form,
    }
    return page(request, "builds/journal/journal_list.html", context, menu="people")
