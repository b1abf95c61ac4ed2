"""The server, for whoever runs it and owns every garage on it."""

from django.http import HttpResponse
from django.utils import timezone
from django.views.decorators.http import require_safe

from garage import clock
from garage.access import refuse_copies
from garage.facts.backups import garages_of_others
from garage.http import GarageRequest, page, require
from garage.pages.server import server_lines


@require_safe
def garage_server(request: GarageRequest) -> HttpResponse:
    require(refuse_copies(request.member, garages_of_others(request.member.person)))
    lines = server_lines(clock.now(), timezone.get_current_timezone())
    return page(request, "garage/garage_server.html", {"lines": lines}, menu="garage")
