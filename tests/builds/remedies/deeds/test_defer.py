"""Wanted work waits, and nothing else does."""

import pytest

from builds.remedies.deeds.defer import DeferDeed
from builds.work.models.states import State
from garage.actions.refused import Refused
from tests.builds.plan.plan_kit import job
from tests.factories import VehicleFactory


def test_wanted_work_waits_with_a_note_until_the_car_has_left(cast, late, do):
    own = job(late.vehicle, cast, "Polish", rank="wanted", note="The left side.")
    other = job(VehicleFactory(garage=cast.garage), cast, "Wax", rank="wanted")
    said = do(DeferDeed(late.pk, (own.pk, other.pk)))
    assert said.startswith("“Polish” and “Wax” wait until Heron has left.")
    own.refresh_from_db()
    other.refresh_from_db()
    assert (own.earliest_at, other.earliest_at) == (late.event.ends_at, late.event.due_at)
    assert own.note == "The left side.\nPut off so that Heron makes Saltmarsh Hill Climb."


@pytest.mark.parametrize("more", [{"rank": "safety"}, {"rank": "needed"}])
def test_what_must_be_done_is_never_put_off(cast, late, do, more):
    brakes = job(late.vehicle, cast, "Brakes", **more)
    with pytest.raises(Refused, match="it is not put off"):
        do(DeferDeed(late.pk, (brakes.pk,)))
    brakes.refresh_from_db()
    assert brakes.earliest_at is None


def test_work_in_hand_is_not_put_off(cast, late, do):
    polish = job(late.vehicle, cast, "Polish", rank="wanted", state=State.IN_HAND)
    with pytest.raises(Refused, match="in hand or pinned"):
        do(DeferDeed(late.pk, (polish.pk,)))
