"""Addresses of links that lead in from outside, and one row of each thing that they name."""

from builds.paper.pages.drive_tag import CODE
from garage.actions import visits
from tests.factories import NOW, VehicleFactory

# name: what its address names, whom it serves, and whether it is read, drawn and sent, or sent.
ADDRESSES: dict[str, tuple[str, str, str]] = {
    "share_list": ("", "ARRANGES_OWN", "read"),
    "person_link_revoke": ("person", "ARRANGES", "send"),
    "visit_link_add": ("", "ARRANGES_OWN", "form"),
    "visit_link_revoke": ("visit_link", "ARRANGES", "send"),
    "visit_take": ("visit_link", "ARRANGES", "form"),
    "visit_refuse": ("visit_link", "ARRANGES", "send"),
    "visit_page": ("token", "GONE", "door"),
    "drive_tag_page": ("tag_code", "OPEN", "read"),
}


def rows(cast):
    return {
        "visit_link": visits.make(by=cast.owner, of=None, days=3, at=NOW)[0].pk,
        "tag_code": CODE.sign(VehicleFactory(garage=cast.garage).pk),
    }
