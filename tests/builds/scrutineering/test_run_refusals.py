"""What is refused of cars that ran, or did not, whatever page asked for it."""

from datetime import timedelta

import pytest

from builds.scrutineering.actions import entries, runs
from builds.work.models.entry_run import EntryRun
from garage.actions.refused import Refused
from garage.models import Entry
from tests.factories import NOW, EntryFactory, EventFactory, VehicleFactory

OVER = NOW + timedelta(hours=10)


@pytest.fixture
def entry(cast):
    event = EventFactory(garage=cast.garage, gates_at=NOW, ends_at=OVER)
    return EntryFactory(event=event, vehicle=VehicleFactory(garage=cast.garage, name="Heron"))


def test_the_strip_down_goes_once_on_each_car_that_ran_there(cast, entry):
    told = {"by": cast.owner, "at": OVER}
    with pytest.raises(Refused, match="is not over yet"):
        runs.strip_down(entry.event, [entry], by=cast.owner, at=OVER - timedelta(seconds=1))
    other = EntryFactory(event=EventFactory(garage=cast.garage), vehicle=entry.vehicle)
    with pytest.raises(Refused, match="Heron was not entered for"):
        runs.strip_down(entry.event, [other], **told)
    with pytest.raises(Refused, match="Tick at least one car that ran"):
        runs.strip_down(entry.event, [], **told)
    made = runs.strip_down(entry.event, [entry], **told)
    with pytest.raises(Refused, match="The strip-down check is on Heron already"):
        runs.strip_down(entry.event, [entry], **told)
    assert entry.vehicle.jobs.count() == len(made[entry.vehicle_id])
    with pytest.raises(Refused, match="The strip-down check is on the car: the first session stays"):
        runs.not_run(EntryRun.objects.get(), by=cast.owner, at=OVER)


def test_that_it_stayed_where_it_was_is_said_once_it_is_over_and_once(cast, entry):
    with pytest.raises(Refused, match="is not over yet"):
        runs.did_not_run(entry, by=cast.owner, at=OVER - timedelta(seconds=1))
    assert not runs.did_not_run(entry, by=cast.owner, at=OVER).ran
    with pytest.raises(Refused):
        runs.did_not_run(entry, by=cast.owner, at=OVER)
    assert EntryRun.objects.count() == 1


def test_a_car_is_taken_out_of_what_has_begun_only_with_a_word_on_whether_it_ran(cast, entry):
    begun = NOW + timedelta(hours=1)
    with pytest.raises(Refused, match="nothing to say yet of whether Heron ran"):
        entries.stayed_still(entry, by=cast.owner, at=NOW - timedelta(hours=1))
    with pytest.raises(Refused, match="has begun: say whether Heron ran there") as refused:
        entries.take_out(entry, at=begun)
    assert refused.value.field == "ran" and Entry.objects.filter(pk=entry.pk, withdrawn_at=None).exists()
    assert entries.stayed_still(entry, by=cast.owner, at=begun)
    entry.refresh_from_db()
    assert entry.withdrawn_at == begun and not EntryRun.objects.get().ran
