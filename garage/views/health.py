"""Whether the garage's machinery works, for whoever watches it."""

from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, JsonResponse
from django.views.decorators.http import require_safe

from garage.pages.health import health as facts


@login_not_required
@require_safe
def health(request: HttpRequest) -> JsonResponse:
    said = facts()
    return JsonResponse(said, status=200 if said["database"] == said["disk"] == "ok" else 503)
