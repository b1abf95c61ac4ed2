"""Whether anything was written since a page was drawn: asked every few seconds, answered by a number."""

from django.http import HttpResponse
from django.views.decorators.http import require_safe

from garage.http import GarageRequest


@require_safe
def garage_seen(request: GarageRequest) -> HttpResponse:
    """204 while nothing was; the count of writes was read with the member, so that nothing else is asked for."""
    writes = str(request.member.garage.writes)
    same = request.GET.get("writes") == writes
    return HttpResponse("" if same else writes, status=204 if same else 200, content_type="text/plain")
