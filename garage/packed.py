"""Pages go compressed; what is packed already, or is streamed, goes as it is."""

from django.http import HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.middleware.gzip import GZipMiddleware

PAGES = ("text/", "application/json", "application/manifest+json", "image/svg+xml")


class Packed(GZipMiddleware):
    """That lengths tell nothing: each answer carries up to 100 bytes of chance, and no secret stands in two of them
    the same, since the CSRF token is masked and the key of every button drawn anew each time.

    Source: BREACH (2013), and the measures that Django's security notes name against it.
    """

    def process_response(self, request: HttpRequest, response: HttpResponseBase) -> HttpResponseBase:
        kind = response.headers.get("Content-Type", "")
        if isinstance(response, HttpResponse) and not response.streaming and kind.startswith(PAGES):
            return super().process_response(request, response)
        return response
