"""Addresses of calendars, and one row of each thing that they name."""

from builds.calendar import actions
from tests.factories import NOW

# name: what its address names, whom it serves, and whether it is read, drawn and sent, or sent.
ADDRESSES: dict[str, tuple[str, str, str]] = {
    "calendar_page": ("", "READS_OWN", "read"),
    "calendar_add": ("", "READS_OWN", "form"),
    "calendar_revoke": ("calendar", "ARRANGES_FOUND", "send"),
    "calendar_feed": ("token", "GONE", "read"),
}


def rows(cast):
    return {"calendar": actions.make(by=cast.owner, whole=True, at=NOW)[0].pk}
