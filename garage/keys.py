"""Keys of writes: each carries the moment it was drawn, so that its receipt may go one day."""

import secrets
import uuid
from datetime import UTC, datetime, timedelta

LASTS = timedelta(days=30)
SLACK = timedelta(days=1)


def drawn(at: datetime) -> uuid.UUID:
    """A version 7 UUID (RFC 9562, 5.7): 48 bits of milliseconds, then random ones."""
    moment = int(at.timestamp() * 1000) << 80
    noise = secrets.randbits(80) & ~(0xF << 76) & ~(0x3 << 62)
    return uuid.UUID(int=moment | noise | 0x7 << 76 | 0x2 << 62)


def too_old(key: uuid.UUID, at: datetime) -> bool:
    """Whether its receipt may be gone already; keys of other versions tell nothing."""
    if key.version != 7:
        return False
    return datetime.fromtimestamp((key.int >> 80) / 1000, UTC) < at - LASTS
