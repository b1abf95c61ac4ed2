"""The shelf on the command line: what is owed, what is short, what is to be bought."""

from io import StringIO

import pytest
from django.core.management import CommandError, call_command

from builds.shelf.actions import shelf
from parts.actions.places import car_place
from tests.builds.plan.plan_kit import job
from tests.factories import NOW, NeedFactory, VehicleFactory
from tests.parts.factories import PartFactory, PlaceFactory

pytestmark = pytest.mark.usefixtures("now")


def printed(**options):
    out = StringIO()
    call_command("shelf", stdout=out, **options)
    return out.getvalue()


def test_an_empty_shelf_says_so(cast):
    assert "Nothing is owed.\nNothing is to be bought." in printed(garage=cast.garage.name)


def test_what_is_owed_and_what_is_short(cast):
    badger = VehicleFactory(garage=cast.garage, name="Badger")
    heron = VehicleFactory(garage=cast.garage, name="Heron")
    spot, hubs = (
        PlaceFactory(garage=cast.garage),
        PartFactory(garage=cast.garage, name="Front hubs", systems=["wheels"]),
    )
    front = job(heron, cast, title="Front end")
    by = {"by": cast.owner, "at": NOW, "quantity": 2}
    shelf.carry_out(hubs, "receive", target=spot, **by)
    shelf.carry_out(hubs, "fit", source=spot, car=badger, all_along=True, **by)
    shelf.carry_out(hubs, "pull", source=car_place(badger), job=front, **by)
    nut = PartFactory(garage=cast.garage, name="Hub nut", supplier="Mill Ltd", cost_minor=250, low_level=4)
    NeedFactory(job=front, part=nut, what="Hub nut", quantity=2)
    said = printed()
    assert "Badger is owed:\n  2 pieces of Front hubs (safety) since Tue 2 Mar 17:00, now the bench" in said
    assert "for “Front end” (Heron)" in said
    assert "To find:\n  2 × Hub nut, to find: “Front end” (Heron)" in said
    assert "To buy from Mill Ltd:" in said and "15.00 EUR" in said


def test_a_garage_that_is_not_there(db):
    with pytest.raises(CommandError, match="no garage called Nowhere"):
        call_command("shelf", garage="Nowhere")
