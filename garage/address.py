"""The address a request comes from."""

from ipaddress import IPv6Address, ip_address, ip_network

from django.conf import settings
from django.http import HttpRequest


def address_of(request: HttpRequest) -> str:
    """The sender's address; behind a proxy what the proxy itself added last, never what came in.

    IPv6 is cut to its /64, since one household has all of it.
    """
    sent = request.META.get("REMOTE_ADDR", "")
    if settings.BEHIND_PROXY:
        sent = request.headers.get("X-Forwarded-For", "").rsplit(",", 1)[-1].strip() or sent
    try:
        address = ip_address(sent)
    except ValueError:
        return "unknown"
    if isinstance(address, IPv6Address):
        return str(ip_network((address, 64), strict=False))
    return str(address)
