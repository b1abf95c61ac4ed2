"""Whether the garage's machinery works, for whoever watches it."""

from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, JsonResponse
from django.views.decorators.http import require_safe

from garage.facts.health import health as facts


@login_not_required
@require_safe
def health(request: HttpRequest) -> JsonResponse:
    found = facts()
    return JsonResponse(found, status=200 if found["database"] == "ok" else 503)
