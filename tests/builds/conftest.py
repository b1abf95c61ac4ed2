"""What sheets and cards are drawn of: a car that is entered, and a weld in hand on it."""

from pytest import fixture

from builds.joints.models import Joint
from parts.actions import stock
from parts.actions.places import house_place
from tests.factories import (
    NOW,
    EntryFactory,
    EventFactory,
    HoldPointFactory,
    JobFactory,
    JobStationFactory,
    NeedFactory,
    SpanFactory,
    StationFactory,
    VehicleFactory,
)
from tests.parts.factories import PartFactory, PlaceFactory


@fixture
def entry(cast, now):
    """A car whose name would be bad in a header or on a disk."""
    car = VehicleFactory(garage=cast.garage, name='He"ron/../x')
    return EntryFactory(event=EventFactory(garage=cast.garage), vehicle=car)


@fixture
def weld(cast, entry):
    """A weld in hand with a joint, a part on the shelf, one that is not there, and a point that was looked at."""
    job = JobFactory(
        vehicle=entry.vehicle, title="Weld the arm", rank="safety", systems=["steering"],
        kinds=["joint_opened"], state="in_hand", note="New rod.\nNut 140 N·m, lubricated.",
    )  # fmt: skip
    SpanFactory(job=job, until_at=None, crew=[cast.helper, cast.owner], by=cast.helper)
    Joint.objects.create(
        vehicle=entry.vehicle, name="Tie rod end", opened_by=["joint_opened"],
        systems=["steering"], thread="M12 × 1.25", klass="10.9", figure_mnm=55_000,
    )  # fmt: skip
    shelf = PlaceFactory(garage=cast.garage, name="Shelf B")
    rod = PartFactory(garage=cast.garage, name="Tie rod")
    source = house_place(cast.garage, "supplier")
    stock.move(rod, "receive", 1, source, shelf, by=cast.owner, at=NOW)
    NeedFactory(job=job, part=rod, what="Tie rod")
    NeedFactory(job=job, what="odd bracket")
    HoldPointFactory(job=job, what="Root pass")
    seen = {"signed_by": cast.owner, "signed_at": NOW}
    HoldPointFactory(job=job, what="Fit-up", **seen)
    JobStationFactory(job=job, station=StationFactory(garage=cast.garage, name="Weld bay"))
    return job
