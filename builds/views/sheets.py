"""Sheets as PDF."""

from django.http import HttpResponse
from django.utils.text import slugify
from django.views.decorators.http import require_safe

from builds.loaders.checklist import checklist_rows
from builds.sheets.checklist import checklist
from garage import clock
from garage.http import GarageRequest, visible
from garage.models import Entry


@require_safe
def entry_sheet(request: GarageRequest, pk: int) -> HttpResponse:
    entry = visible(Entry, request.member, pk=pk)
    answer = HttpResponse(
        checklist(checklist_rows(entry, clock.now())), content_type="application/pdf"
    )
    name = slugify(f"{entry.vehicle} {entry.event}")[:80] or "sheet"
    answer["Content-Disposition"] = f'inline; filename="{name}.pdf"'
    return answer
