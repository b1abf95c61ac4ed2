"""What is logged of the door and the walls: one JSON line an event, and never a token."""

import json
import logging
import re
from typing import Any

from django.http import HttpRequest

from garage import clock
from garage.address import address_of

log = logging.getLogger("garage.security")
TOKEN = re.compile(r"/(enter|shared|feed|visit|news/stop)/[^/\s?#\"']+")


def masked(text: str) -> str:
    return TOKEN.sub(r"/\1/***", text)


class MaskTokens(logging.Filter):
    """Tokens in addresses stay out of every line, whoever writes it."""

    def filter(self, record: logging.LogRecord) -> bool:
        record.msg, record.args = masked(record.getMessage()), None
        return True


def note(event: str, request: HttpRequest | None = None, **facts: Any) -> None:
    """One event. JSON escapes line breaks and control characters, so one event is one line."""
    line: dict[str, Any] = {"at": clock.now().isoformat(timespec="seconds"), "event": event}
    if request is not None:
        user = getattr(request, "user", None)
        line |= {
            "person": user.pk if user else None,
            "address": address_of(request),
            "method": request.method,
            "path": masked(request.path),
        }
    log.info(json.dumps(line | facts))
