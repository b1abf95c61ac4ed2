"""Backups: when the last was made and where, and a button for one more."""

from django.contrib import messages
from django.http import HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe

from garage import clock
from garage.access import refuse_copies
from garage.actions import daily_backup
from garage.facts.backups import garages_of_others
from garage.http import GarageRequest, once, page, require, see
from garage.logs import note
from garage.pages.backups import backups_page


@require_safe
def backup_list(request: GarageRequest) -> HttpResponse:
    require(refuse_copies(request.member, garages_of_others(request.member.person)))
    return page(request, "garage/backup_list.html", {"view": backups_page(clock.now())}, menu="garage")


@require_POST
@once
def backup_add(request: GarageRequest) -> HttpResponse:
    require(refuse_copies(request.member, garages_of_others(request.member.person)))
    begun = daily_backup.ask(daily=False, at=clock.now())
    note("backup asked for", request)
    messages.success(request, "A backup is being made." if begun else "One is being made already.")
    return see(reverse("backup_list"))
