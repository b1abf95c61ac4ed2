"""What moves, needs and lines of a list refuse by themselves, whatever page asked for it."""

from datetime import timedelta

import pytest

from builds.needs.actions import needs
from builds.packing import actions as packing
from builds.packing.models import PackItem
from builds.shelf.actions import shelf
from builds.work.models.need import Need
from garage.actions.refused import Refused
from parts.actions import stock
from parts.models import Move
from tests.factories import NOW, EntryFactory, EventFactory, JobFactory, NeedFactory, VehicleFactory
from tests.parts.factories import PartFactory, PlaceFactory


@pytest.fixture
def job(cast):
    return JobFactory(vehicle=VehicleFactory(garage=cast.garage, name="Heron"), title="Fit the fan")


@pytest.fixture
def fan(cast):
    return PartFactory(garage=cast.garage, name="Fan")


@pytest.fixture
def theirs(cast):
    return JobFactory(vehicle=VehicleFactory(garage=cast.stranger.garage))


def test_a_part_moves_for_a_job_of_its_garage_and_of_the_car_it_goes_on(cast, job, fan, theirs):
    told = {"by": cast.owner, "at": NOW, "quantity": 1}
    rack = PlaceFactory(garage=cast.garage)
    shelf.carry_out(fan, "receive", target=rack, **told)
    with pytest.raises(Refused, match="The job must be in the same garage") as refused:
        shelf.carry_out(fan, "pull", source=rack, job=theirs, **told)
    assert refused.value.field == "job"
    badger = VehicleFactory(garage=cast.garage, name="Badger")
    with pytest.raises(Refused, match="is a job on Heron, not on Badger") as refused:
        shelf.carry_out(fan, "fit", source=rack, car=badger, job=job, **told)
    assert refused.value.field == "job" and Move.objects.count() == 1


def test_a_move_is_undone_within_its_time_to_the_second(cast, fan):
    told = {"by": cast.owner, "quantity": 1}
    early, late = (
        shelf.carry_out(
            fan, "receive", target=PlaceFactory(garage=cast.garage), at=NOW + timedelta(seconds=second), **told
        )
        for second in (0, 1)
    )
    at = NOW + stock.UNDO_FOR + timedelta(seconds=1)
    with pytest.raises(Refused, match="It was moved too long ago to undo"):
        shelf.undo(early, by=cast.owner, at=at)
    assert shelf.undo(late, by=cast.owner, at=at).reverses == late


def test_a_need_is_of_an_open_job_and_of_a_part_of_its_garage(cast, job, theirs):
    part = PartFactory(garage=cast.stranger.garage)
    with pytest.raises(Refused, match="The part must be in the same garage"):
        needs.add(job, at=NOW, what="fan", part=part)
    need = needs.add(job, at=NOW, what="fan")
    with pytest.raises(Refused, match="The part must be in the same garage") as refused:
        needs.name_part(need, part, by=cast.owner)
    assert refused.value.field == "part"
    for state in ("done", "signed", "dropped"):
        job.state = state
        with pytest.raises(Refused, match="open it again first"):
            needs.add(job, at=NOW, what="belt")
    assert Need.objects.get() == need and need.part is None


@pytest.mark.parametrize("state", ["done", "signed"])
def test_what_a_job_that_is_over_never_got_is_the_owners_to_strike_out(cast, job, state):
    job.state = state
    need = NeedFactory(job=job)
    with pytest.raises(Refused, match="is over: only the owner says that it did not need"):
        needs.remove(need, by=cast.helper)
    needs.remove(need, by=cast.owner)
    job.state = "in_hand"
    needs.remove(NeedFactory(job=job), by=cast.helper)
    assert not Need.objects.exists()


def test_a_line_of_a_pack_list_is_for_a_car_of_the_garage_and_stays_once_made_or_packed(cast, job):
    event = EventFactory(garage=cast.garage)
    EntryFactory(event=event, vehicle=job.vehicle)
    listed = packing.make(event, by=cast.owner, at=NOW)
    with pytest.raises(Refused, match="The car must be in the same garage") as refused:
        packing.add(listed, what="Jack", vehicle=VehicleFactory())
    assert refused.value.field == "vehicle"
    made = PackItem.objects.filter(packlist=listed).exclude(key="").first()
    with pytest.raises(Refused, match="The list was made with this line"):
        packing.remove(made)
    own = packing.add(listed, what="Jack", vehicle=job.vehicle)
    packing.remove(own)
    assert not PackItem.objects.filter(what="Jack").exists() and PackItem.objects.filter(pk=made.pk).exists()
