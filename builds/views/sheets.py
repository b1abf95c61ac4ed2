"""Sheets as PDF."""

from django.http import HttpResponse
from django.views.decorators.http import require_safe

from builds.loaders.checklist import checklist_rows
from builds.sheets.checklist import checklist
from garage import clock
from garage.http import GarageRequest, pdf, visible
from garage.models import Entry


@require_safe
def entry_sheet(request: GarageRequest, pk: int) -> HttpResponse:
    entry = visible(Entry, request.member, pk=pk)
    return pdf(checklist(checklist_rows(entry, clock.now())), f"{entry.vehicle} {entry.event}")
