"""Whether the garage's machinery works, for whoever watches it."""

from django.contrib.auth.decorators import login_not_required
from django.http import Http404, HttpRequest, HttpResponse, JsonResponse
from django.views.decorators.http import require_safe

from garage import clock
from garage.address import may_watch
from garage.engine.open_metrics import CONTENT_TYPE
from garage.pages.health import health as facts
from garage.pages.health import ready
from garage.pages.metrics import metrics_text


@login_not_required
@require_safe
def health(request: HttpRequest) -> JsonResponse:
    said = facts()
    return JsonResponse(said, status=200 if said["database"] == said["disk"] == "ok" else 503)


@login_not_required
@require_safe
def health_live(request: HttpRequest) -> JsonResponse:
    """Of this process alone: whoever restarts it when it hangs is not misled by a database that is away."""
    return JsonResponse({"live": True})


@login_not_required
@require_safe
def health_ready(request: HttpRequest) -> JsonResponse:
    """Whether pages can be served from here: 503 while not, so that whoever balances asks elsewhere."""
    said = ready()
    return JsonResponse(said, status=200 if said["ready"] else 503)


@login_not_required
@require_safe
def health_metrics(request: HttpRequest) -> HttpResponse:
    if not may_watch(request):
        raise Http404
    return HttpResponse(metrics_text(clock.now()), content_type=CONTENT_TYPE)
