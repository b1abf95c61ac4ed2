"""What is logged, a line an event: people by number and address, never what a link opens or somebody wrote."""

import json
import logging
import re
from datetime import UTC, datetime
from typing import Any

from django.http import HttpRequest

from garage.address import address_of

log = logging.getLogger("garage.security")
TOKEN = re.compile(r"/(enter|shared|feed|visit|news/stop)/[^/\s?#\"'\\]+")
EMAIL = re.compile(r"[^\s\"'<>()=,;:/\\]+@[^\s\"'<>()=,;:/\\]+\.[^\s\"'<>()=,;:/\\]+")
# Where PostgreSQL refuses a row it quotes what was in it (“DETAIL” of its errors), up to the end of a line.
QUOTED = re.compile(r"(DETAIL: ).*")


def masked(text: str) -> str:
    return QUOTED.sub(r"\1***", EMAIL.sub("***@***", TOKEN.sub(r"/\1/***", text)))


class PlainLine(logging.Formatter):
    """For people who read a terminal; a fault's trace follows on lines of its own."""

    def __init__(self) -> None:
        super().__init__("%(asctime)s %(levelname)s %(name)s %(message)s")

    def format(self, record: logging.LogRecord) -> str:
        return masked(super().format(record))


class JsonLine(logging.Formatter):
    """For programs: one object a line, whatever was said. What an event knows stands beside what all lines have."""

    def format(self, record: logging.LogRecord) -> str:
        at = datetime.fromtimestamp(record.created, UTC).isoformat(timespec="milliseconds")
        line = {"at": at, "level": record.levelname, "log": record.name, "process": record.process}
        line |= getattr(record, "facts", None) or {"said": masked(record.getMessage())}
        if record.exc_info:
            line["trace"] = masked(self.formatException(record.exc_info))
        return json.dumps(line)


def note(event: str, request: HttpRequest | None = None, **facts: Any) -> None:
    """One event. JSON escapes line breaks and control characters, so one event is one line."""
    line: dict[str, Any] = {"event": event}
    if request is not None:
        user = getattr(request, "user", None)
        line |= {
            "person": user.pk if user else None,
            "address": address_of(request),
            "method": request.method,
            "path": masked(request.path),
        }
    line |= facts
    log.info(json.dumps(line), extra={"facts": line})
