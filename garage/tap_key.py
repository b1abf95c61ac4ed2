"""The key that a button was drawn with, as the key of the tap."""

import uuid

from garage.http import GarageRequest


def tap_key(request: GarageRequest) -> uuid.UUID:
    """Only for views under `once`, which has refused a write without a key."""
    sent = request.headers.get("Idempotency-Key") or request.POST["key"]
    return uuid.UUID(sent[:40])
