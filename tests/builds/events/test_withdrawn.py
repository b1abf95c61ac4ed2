"""What was ticked for a car stays, though the car does not come or the event is taken out."""

import uuid

import pytest

from builds.events.actions import take_out
from builds.packing import actions as packing
from builds.packing.models import PackLog
from builds.scrutineering.actions import entries, runs
from builds.scrutineering.models.check import CheckLog
from builds.work.models.entry_run import EntryRun
from garage.actions import events
from garage.actions.refused import Refused
from garage.models import Entry, Event
from tests.builds.scrutineering.check_kit import item_of, made, tap
from tests.factories import NOW, EntryFactory


@pytest.fixture
def ticked(cast, now):
    checklist = made(cast)
    tap(item_of(checklist, "turbo"), "tick", cast.helper)
    return checklist.entry


def test_an_entry_without_a_tick_goes(cast, now):
    entry = made(cast).entry
    assert entries.take_out(entry, at=NOW) is False
    assert not Entry.objects.exists()


def test_one_with_a_tick_is_withdrawn_and_its_log_stays(ticked):
    assert entries.take_out(ticked, at=NOW) is True
    ticked.refresh_from_db()
    assert ticked.withdrawn_at == NOW
    assert CheckLog.objects.count() == 1
    assert not Entry.objects.upcoming(NOW).exists()
    assert not Entry.objects.kept().exists()


def test_a_car_that_has_run_stays_entered(cast, ticked):
    EntryRun.objects.create(entry=ticked, at=NOW, by=cast.owner)
    with pytest.raises(Refused, match="has run at"):
        entries.take_out(ticked, at=NOW)
    ticked.refresh_from_db()
    assert ticked.withdrawn_at is None


def test_a_withdrawn_car_can_be_entered_again_with_its_ticks(ticked):
    entries.take_out(ticked, at=NOW)
    again = events.enter(ticked.event, ticked.vehicle, weight=7)
    assert (again.pk, again.weight, again.withdrawn_at) == (ticked.pk, 7, None)
    with pytest.raises(Refused, match="is entered already"):
        events.enter(ticked.event, ticked.vehicle, weight=7)


def test_a_withdrawn_car_runs_no_first_session(cast, ticked):
    entries.take_out(ticked, at=NOW)
    ticked.refresh_from_db()
    with pytest.raises(Refused, match="is withdrawn from"):
        runs.first_session(ticked, by=cast.owner, at=ticked.event.gates_at)


def test_an_event_with_ticks_stays_in_the_book(ticked):
    with pytest.raises(Refused, match=r"Ticks of .* are on record"):
        take_out(ticked.event, at=NOW)
    entries.take_out(ticked, at=NOW)
    with pytest.raises(Refused, match=r"Ticks of .* are on record"):
        take_out(ticked.event, at=NOW)
    assert CheckLog.objects.count() == 1


def test_an_event_that_was_packed_for_stays_in_the_book(cast, now):
    event = EntryFactory(event__garage=cast.garage, vehicle__garage=cast.garage).event
    item = packing.add(packing.make(event, by=cast.owner, at=NOW), what="Tarpaulin")
    packing.take(item, "pack", by=cast.owner, at=NOW, key=uuid.uuid4())
    with pytest.raises(Refused, match="It was packed once"):
        packing.remove(item)
    with pytest.raises(Refused, match=r"What was packed for .* is on record"):
        take_out(event, at=NOW)
    assert PackLog.objects.count() == 1


def test_an_event_without_any_goes_with_its_entries(cast, now):
    entry = made(cast).entry
    take_out(entry.event, at=NOW)
    assert not Event.objects.filter(pk=entry.event_id).exists()
    assert not Entry.objects.exists()


def test_the_pages_say_so(owner, ticked):
    answer = owner.press(f"/entries/{ticked.pk}/delete/")
    page = owner.get(answer["Location"]).content.decode()
    assert "is withdrawn; what was ticked for it stays." in page
    assert "Withdrawn" in page and f"/entries/{ticked.pk}/checks/" in page
    answer = owner.press(f"/events/{ticked.event_id}/delete/")
    assert "it stays" in owner.get(answer["Location"]).content.decode()
    for path in ("checks/", "remedies/", "remedies/more/", "remedies/odds/", "sheet.pdf"):
        assert owner.get(f"/entries/{ticked.pk}/{path}").status_code < 500
    for path in ("/", "/events/", "/plan/", f"/events/{ticked.event_id}/pack/", f"/paddock/{ticked.event_id}/"):
        assert owner.get(path).status_code == 200
    add = owner.get(f"/events/{ticked.event_id}/entries/add/").content.decode()
    assert str(ticked.vehicle) in add
