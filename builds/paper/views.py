"""Sheets as PDF."""

from django.http import HttpResponse
from django.views.decorators.http import require_safe

from builds.packing import sheet as pack
from builds.packing.pages import pack_sheet_rows
from builds.paper.pages.checklist import checklist_rows
from builds.paper.pages.drive_tag import drive_tag_rows
from builds.paper.pages.setup_sheet import setup_sheet_rows
from builds.paper.sheets import setup
from builds.paper.sheets.checklist import checklist
from builds.paper.sheets.drive_tag import drive_tag
from builds.shelf import sheet as owed
from builds.shelf.pages.owed_sheet import owed_sheet_rows
from builds.today.pages.card_sheet import card_sheet_rows
from builds.today.pages.pull_sheet import pull_sheet_rows
from builds.today.sheets import cards, pull
from builds.today.views.pulls import asked_for
from garage import clock
from garage.http import GarageRequest, pdf, visible
from garage.models import Entry, Event, Vehicle


@require_safe
def entry_sheet(request: GarageRequest, pk: int) -> HttpResponse:
    entry = visible(Entry, request.member, pk=pk)
    return pdf(checklist(checklist_rows(entry, clock.now())), f"{entry.vehicle} {entry.event}")


@require_safe
def pull_sheet(request: GarageRequest) -> HttpResponse:
    asked = asked_for(request)
    rows = pull_sheet_rows(request.member.garage, clock.now(), asked)
    return pdf(pull.pull_sheet(rows), f"pull {asked}")


@require_safe
def card_sheet(request: GarageRequest) -> HttpResponse:
    asked = asked_for(request)
    rows = card_sheet_rows(request.member.garage, clock.now(), asked)
    return pdf(cards.job_cards(rows), f"cards {asked}")


@require_safe
def vehicle_tag(request: GarageRequest, pk: int) -> HttpResponse:
    vehicle = visible(Vehicle, request.member, pk=pk)
    return pdf(drive_tag(drive_tag_rows(vehicle, clock.now())), f"do not drive {vehicle}")


@require_safe
def owed_sheet(request: GarageRequest) -> HttpResponse:
    return pdf(owed.owed_sheet(owed_sheet_rows(request.member.garage, clock.now())), "owed")


@require_safe
def pack_sheet(request: GarageRequest, pk: int) -> HttpResponse:
    event = visible(Event, request.member, pk=pk)
    return pdf(pack.pack_sheet(pack_sheet_rows(event, clock.now())), f"pack {event}")


@require_safe
def setup_sheet(request: GarageRequest, pk: int) -> HttpResponse:
    vehicle = visible(Vehicle, request.member, pk=pk)
    return pdf(setup.setup_sheet(setup_sheet_rows(vehicle, clock.now())), f"setup {vehicle}")
