"""Addresses of the shelf for the test of every address, and one row of each thing they name."""

from parts.actions import stock
from parts.actions.places import house_place
from tests.factories import NOW
from tests.parts.factories import PartFactory, PlaceFactory

# name: what its address names, whom it serves, and whether it is read, drawn and sent, or sent.
ADDRESSES = {
    "part_list": ("", "READS_OWN", "read"),
    "part_page": ("part", "READS", "read"),
    "part_add": ("", "WORKS_OWN", "form"),
    "part_edit": ("part", "WORKS", "form"),
    "part_move": ("part_verb", "WORKS", "form"),
    "part_count": ("part", "WORKS", "form"),
    "want_add": ("part", "WORKS", "form"),
    "need_part": ("need", "WORKS", "form"),
    "owed_list": ("", "READS_OWN", "read"),
    "want_list": ("", "READS_OWN", "read"),
    "want_sheet": ("", "READS_OWN", "read"),
    "pull_list": ("", "READS_OWN", "read"),
    "move_undo": ("move", "WORKS", "send"),
    "code_page": ("code", "READS", "read"),
    "place_list": ("", "READS_OWN", "read"),
    "place_add": ("", "WORKS_OWN", "form"),
    "place_page": ("spot", "READS", "read"),
    "place_edit": ("spot", "WORKS", "form"),
}


def rows(cast):
    part, spot = PartFactory(garage=cast.garage), PlaceFactory(garage=cast.garage)
    supplier = house_place(cast.garage, "supplier")
    move = stock.move(part, "receive", 2, supplier, spot, by=cast.owner, at=NOW)
    return {
        "part": part.pk,
        "part_verb": (part.pk, "scrap"),
        "spot": spot.pk,
        "move": move.pk,
        "code": part.code,
    }
