"""What tests of the event's day share: a line sent as a phone sends it."""

import uuid

from tests.factories import NOW

JSON = {"Accept": "application/json"}


def write(client, entry, item, to, *, seen=0, key=None, at=NOW, **more):
    data = {"item": item, "to": to, "seen": seen, "at": at.isoformat(), **more}
    key = str(key or uuid.uuid4())
    path = f"/paddock/{entry.event_id}/write/"
    return client.post(path, data, headers={**JSON, "Idempotency-Key": key})
