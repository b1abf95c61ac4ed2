"""Sheets as PDF."""

from django.http import HttpResponse
from django.views.decorators.http import require_safe

from builds.paper.pages.checklist import checklist_rows
from builds.paper.pages.drive_tag import drive_tag_rows
from builds.paper.pages.setup_sheet import setup_sheet_rows
from builds.paper.sheets import setup
from builds.paper.sheets.checklist import checklist
from builds.paper.sheets.drive_tag import drive_tag
from builds.plan.views.following import follows
from garage import clock
from garage.http import GarageRequest, pdf, visible
from garage.models import Entry, Vehicle


@require_safe
@follows
def checklist_sheet(request: GarageRequest, pk: int) -> HttpResponse:
    entry = visible(Entry, request.member, pk=pk)
    return pdf(checklist(checklist_rows(entry, clock.now())), f"{entry.vehicle} {entry.event}")


@require_safe
def drive_tag_sheet(request: GarageRequest, pk: int) -> HttpResponse:
    vehicle = visible(Vehicle, request.member, pk=pk)
    return pdf(drive_tag(drive_tag_rows(vehicle, clock.now())), f"do not drive {vehicle}")


@require_safe
def setup_sheet(request: GarageRequest, pk: int) -> HttpResponse:
    vehicle = visible(Vehicle, request.member, pk=pk)
    return pdf(setup.setup_sheet(setup_sheet_rows(vehicle, clock.now())), f"setup {vehicle}")
