"""Addresses of links that lead in from outside, and one row of each thing that they name."""

from builds.needs.models import PartOffer
from builds.paper.pages.drive_tag import CODE
from builds.work.models.guest_tick import GuestTick
from garage.actions import shares, visits
from tests.factories import NOW, JobFactory, NeedFactory, VehicleFactory

# name: what its address names, whom it serves, and whether it is read, drawn and sent, or sent.
ADDRESSES: dict[str, tuple[str, str, str]] = {
    "share_list": ("", "ARRANGES_OWN", "read"),
    "share_photo": ("token_and_row", "GONE", "read"),
    "share_have": ("token_and_row", "GONE", "door"),
    "share_comment": ("token", "GONE", "door"),
    "share_tick": ("token_and_row", "GONE", "door"),
    "share_tick_refuse": ("guest_tick", "WORKS", "send"),
    "share_offer_seen": ("part_offer", "ARRANGES", "send"),
    "person_link_revoke": ("person", "ARRANGES", "send"),
    "visit_link_add": ("", "ARRANGES_OWN", "form"),
    "visit_link_revoke": ("visit_link", "ARRANGES", "send"),
    "visit_take": ("visit_link", "ARRANGES", "form"),
    "visit_refuse": ("visit_link", "ARRANGES", "send"),
    "visit_page": ("token", "GONE", "door"),
    "drive_tag_page": ("tag_code", "OPEN", "read"),
}


def rows(cast):
    car = VehicleFactory(garage=cast.garage)
    share, _ = shares.make(by=cast.owner, at=NOW, days=3, vehicle=car, parts=True)
    need = NeedFactory(job=JobFactory(vehicle=car, made_by=cast.owner))
    offer = PartOffer.objects.create(share=share, need=need, name="Ravi", line="A good one", key="k", said_at=NOW)
    fan = JobFactory(vehicle=car, made_by=cast.owner)
    tick = GuestTick.objects.create(share=share, job=fan, name="Ravi", key="k", said_at=NOW)
    return {
        "guest_tick": tick.pk,
        "token_and_row": ("x" * 27, 1),
        "part_offer": offer.pk,
        "visit_link": visits.make(by=cast.owner, of=None, days=3, at=NOW)[0].pk,
        "tag_code": CODE.sign(VehicleFactory(garage=cast.garage).pk),
    }
