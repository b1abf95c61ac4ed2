"""Where other phones reach this garage: as it is set, else as the page at hand was opened."""

from contextvars import ContextVar
from ipaddress import ip_address
from urllib.parse import urlsplit

from django.conf import settings
from django.http import HttpRequest

NOT_SET = "http://127.0.0.1:8000"
asked_by: ContextVar[HttpRequest | None] = ContextVar("asked_by", default=None)


def public(path: str) -> str:
    """The whole address of a path. What is set counts, unless it leads to this machine alone and the request knows of
    another; a command, which nobody asks over the network, has nothing else."""
    known, request = settings.PUBLIC_URL, asked_by.get()
    if request is not None and (not known or only_here(known)):
        known = f"{request.scheme}://{request.get_host()}"
    return (known or NOT_SET) + path


def only_here(address: str) -> bool:
    """Whether no other machine can follow an address: it leads each back to itself."""
    host = urlsplit(address).hostname or ""
    try:
        number = ip_address(host)
    except ValueError:
        return host == "localhost" or host.endswith(".localhost")
    return number.is_loopback or number.is_unspecified
