"""The address a request comes from, and who may watch the server from there."""

from hmac import compare_digest
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


# What proxies add by custom. Where one of them was sent, whoever asks stands behind a proxy, whatever the settings say.
OF_PROXIES = ("X-Forwarded-For", "X-Forwarded-Proto", "X-Real-IP", "Forwarded", "Via")


def may_watch(request: HttpRequest) -> bool:
    """By the token, where one is set; else a program on this machine, which asks past any proxy."""
    if settings.METRICS_TOKEN:
        sent = request.headers.get("Authorization", "")
        return compare_digest(sent.encode(), f"Bearer {settings.METRICS_TOKEN}".encode())
    if settings.BEHIND_PROXY or any(name in request.headers for name in OF_PROXIES):
        return False
    try:
        return ip_address(request.META.get("REMOTE_ADDR", "")).is_loopback
    except ValueError:
        return False
