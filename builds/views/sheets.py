"""Sheets as PDF."""

from django.http import HttpResponse
from django.views.decorators.http import require_safe

from builds.loaders.card_sheet import card_sheet_rows
from builds.loaders.checklist import checklist_rows
from builds.loaders.pull_sheet import pull_sheet_rows
from builds.sheets import cards, pull
from builds.sheets.checklist import checklist
from builds.views.wants import asked_for
from garage import clock
from garage.http import GarageRequest, pdf, visible
from garage.models import Entry


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
