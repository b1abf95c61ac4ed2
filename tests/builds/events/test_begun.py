"""Whether a car ran is not made away with: not by withdrawing it, by other days, nor with the event itself."""

from datetime import timedelta

import pytest

from builds.events.actions import change, take_out
from builds.scrutineering.actions import entries, runs
from builds.work.facts.runs import runs_of
from builds.work.models.entry_run import EntryRun
from garage.actions import events
from garage.actions.refused import Refused
from garage.models import Entry, Event
from tests.builds.scrutineering.check_kit import entered

DAY = timedelta(days=1)
ASKS = "has begun, and nobody has said whether Moth ran there: that is said first."


@pytest.fixture
def entry(cast, now):
    """Its event is over since an hour, and nobody has said whether it ran."""
    return entered(cast, event__gates_at=now - DAY, event__ends_at=now - timedelta(hours=1))


def asked(entry, at):
    return [run for run in runs_of(entry.vehicle.garage, [entry.vehicle], at)[entry.vehicle_id] if not run.told]


def test_withdrawing_asks_first_and_what_is_said_counts(owner, cast, entry, now):
    path = f"/entries/{entry.pk}/delete/"
    page = owner.get(f"/events/{entry.event_id}/").content.decode()
    assert f'href="{path}"' in page and f'action="{path}"' not in page
    for answer in (owner.press(path), owner.press(path, {"ran": "perhaps"})):
        assert answer.status_code == 422
    assert "Say whether it ran" in owner.press(path).content.decode()
    assert asked(entry, now)
    answer = owner.press(path, {"ran": "stayed"}, follow=True).content.decode()
    assert "is withdrawn and did not run at" in answer and "it did not run" in answer
    assert not asked(entry, now)
    owner.press(f"/entries/{entry.pk}/not-run/")
    page = owner.get(f"/events/{entry.event_id}/").content.decode()
    assert asked(entry, now) and "nobody has said whether it ran" in page
    owner.press(f"/entries/{entry.pk}/first-session/")
    entry.refresh_from_db()
    assert entry.withdrawn_at is None and runs_of(entry.vehicle.garage, [entry.vehicle], now)[entry.vehicle_id][0].told


def test_that_it_ran_is_said_while_withdrawing_and_it_stays_entered(owner, cast, entry, now):
    answer = owner.press(f"/entries/{entry.pk}/delete/", {"ran": "ran"})
    assert answer["Location"] == f"/entries/{entry.pk}/checks/"
    assert EntryRun.objects.get().ran
    assert Entry.objects.coming().filter(pk=entry.pk).exists()


def test_who_says_that_it_ran_withdraws_nothing_though_another_said_meanwhile_that_it_did_not(owner, entry):
    owner.press(f"/entries/{entry.pk}/did-not-run/")
    assert not EntryRun.objects.get().ran
    answer = owner.press(f"/entries/{entry.pk}/delete/", {"ran": "ran"})
    assert answer.status_code == 422
    assert "It is written down that Moth did not run: take that back first." in answer.content.decode()
    assert Entry.objects.coming().filter(pk=entry.pk).exists()


@pytest.mark.parametrize(("after", "asks"), [(timedelta(0), True), (timedelta(seconds=-1), False)])
def test_the_action_refuses_from_the_moment_that_the_gates_open(cast, entry, after, asks):
    at = entry.event.gates_at + after
    assert entries.asks(entry, at) == asks
    if not asks:
        with pytest.raises(Refused, match="nothing to say yet"):
            entries.stayed_still(entry, by=cast.owner, at=at)
        assert entries.take_out(entry, at=at) is False
        return
    with pytest.raises(Refused, match="say whether Moth ran there"):
        entries.take_out(entry, at=at)
    assert entries.stayed_still(entry, by=cast.owner, at=at) is True


def test_one_that_comes_back_to_what_is_not_over_is_asked_about_again(cast, entry):
    during, over = entry.event.ends_at - timedelta(minutes=1), entry.event.ends_at
    entries.stayed_still(entry, by=cast.owner, at=during)
    assert not asked(entry, over)
    entries.enter(entry.event, entry.vehicle, at=during, weight=1)
    assert asked(entry, over)
    runs.did_not_run(entry, by=cast.owner, at=over)
    events.change_entry(entry, withdrawn_at=over)
    entries.enter(entry.event, entry.vehicle, at=over, weight=1)
    assert not asked(entry, over)


def moved(event, at, days=7, field="gates_at"):
    """The same event so many days later, from that moment of it on."""
    gates = event.gates_at + timedelta(days=days * (field == "gates_at"))
    change(event, at=at, gates_at=gates, ends_at=event.ends_at + timedelta(days=days))


def test_its_days_stay_while_a_car_is_asked_about_or_once_one_ran(cast, entry, now):
    for field in ("gates_at", "ends_at"):
        with pytest.raises(Refused, match=ASKS) as refused:
            moved(entry.event, now, field=field)
        assert refused.value.field == field
    change(entry.event, at=now, gates_at=entry.event.gates_at, ends_at=entry.event.ends_at, name="Hill")
    runs.did_not_run(entry, by=cast.owner, at=now)
    entry.event.refresh_from_db()
    moved(entry.event, now)
    assert not EntryRun.objects.exists()
    assert asked(entry, now + 7 * DAY)
    run = runs.first_session(entry, by=cast.owner, at=entry.event.gates_at)
    with pytest.raises(Refused, match="Moth ran at Hill: its days stay as they are"):
        moved(entry.event, run.at, days=-14)
    assert Event.objects.get().gates_at == entry.event.gates_at


def test_one_that_goes_on_may_end_otherwise_and_sooner_even_while_it_asks(cast, entry):
    event, at = entry.event, entry.event.gates_at + timedelta(hours=1)

    def ends(minutes):
        change(event, at=at, gates_at=event.gates_at, ends_at=at + timedelta(minutes=minutes))

    ends(90)
    for late in (91, 0):
        with pytest.raises(Refused, match=ASKS):
            ends(late)
    runs.first_session(entry, by=cast.owner, at=at)
    ends(120)
    with pytest.raises(Refused, match="Moth ran at"):
        ends(0)


def test_not_run_holds_for_days_that_are_over_all_the_same(cast, entry, now):
    runs.did_not_run(entry, by=cast.owner, at=now)
    change(entry.event, at=now, gates_at=entry.event.gates_at, ends_at=now)
    assert EntryRun.objects.filter(ran=False).exists()


def test_the_page_says_it_at_the_field_and_the_event_is_not_deleted(owner, entry, now):
    path = f"/events/{entry.event_id}/edit/"
    form = owner.get(path).context["form"]
    later = {"gates_at": "2027-04-14T07:30", "ends_at": "2027-04-14T18:00"}
    answer = owner.press(path, {**form.standing, **later})
    assert answer.status_code == 422
    assert ASKS in answer.context["form"].errors["gates_at"][0]
    with pytest.raises(Refused, match=ASKS):
        take_out(entry.event, at=now)
    assert ASKS in owner.press(f"/events/{entry.event_id}/delete/", follow=True).content.decode()
