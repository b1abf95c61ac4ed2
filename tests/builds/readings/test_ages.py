"""Readings stand until the car has run, or until they are older than the garage allows."""

from datetime import timedelta

import pytest

from builds.readings.facts.readings import readings_of
from builds.readings.models.age import ReadingAge
from builds.readings.models.reading import OwnKind
from builds.readings.pages.setup import setup_sheet
from builds.scrutineering.actions import runs
from builds.scrutineering.actions.entries import take_out
from builds.verdict.facts.verdict import verdict_of
from builds.work.facts.runs import runs_of
from garage.actions.refused import Refused
from tests.builds.readings.reading_kit import HOUR, limit, require, take, text, url
from tests.factories import NOW, EntryFactory, EventFactory, VehicleFactory

pytestmark = pytest.mark.django_db
DAY = timedelta(days=1)


@pytest.fixture
def car(cast, now):
    return VehicleFactory(garage=cast.garage, name="Heron")


def entered(car, cast, ends_at, name="Saltmarsh"):
    event = EventFactory(garage=cast.garage, name=name, gates_at=ends_at - 8 * HOUR, ends_at=ends_at)
    return EntryFactory(event=event, vehicle=car)


def states(car, *keys, at=NOW):
    lines = readings_of(car.garage, [car], at)[car.pk].lines
    return [lines[key].state for key in keys]


def test_unanswered_it_is_not_known_from_the_events_end_and_not_a_second_before(cast, car):
    for key in ("wheel_torque", "bearing_play", "camber"):
        take(car, key, cast.owner, at=NOW - DAY)
    entered(car, cast, NOW)
    assert states(car, "wheel_torque", "bearing_play", "camber") == ["ran", "ran", "stands"]
    assert states(car, "wheel_torque", at=NOW - timedelta(seconds=1)) == ["stands"]


def test_the_verdict_asks_whether_it_ran_and_believes_that_it_did_not(cast, car):
    require(car, cast.owner, "tyre_pressures")
    take(car, "tyre_pressures", cast.owner, at=NOW - 3 * HOUR, amount=190_000)
    entry = entered(car, cast, NOW - HOUR)
    (reason,) = [reason for reason in verdict_of(car, NOW).reasons if reason.kind == "reading"]
    assert reason.sentence == (
        "Not known: Tyre pressures. Saltmarsh was over Tue 2 Mar 16:00, after it was taken,"
        " and nobody has said whether the car ran."
    )
    assert "did not run" in reason.clears
    run = runs.did_not_run(entry, by=cast.owner, at=NOW)
    assert states(car, "tyre_pressures") == ["stands"]
    runs.not_run(run, by=cast.owner, at=NOW)
    assert states(car, "tyre_pressures") == ["ran"]
    runs.first_session(entry, by=cast.owner, at=NOW)
    (reason,) = [reason for reason in verdict_of(car, NOW).reasons if reason.kind == "reading"]
    assert reason.sentence == (
        "Not known since the car ran: Tyre pressures. The car ran at Saltmarsh (Tue 2 Mar 16:00) after it was taken."
    )
    take(car, "tyre_pressures", cast.owner, amount=190_000)
    assert states(car, "tyre_pressures") == ["stands"]


def test_written_down_late_it_ran_by_the_events_end(cast, car):
    entry = entered(car, cast, NOW - 2 * HOUR)
    take(car, "wheel_torque", cast.owner, at=NOW - HOUR)
    runs.first_session(entry, by=cast.owner, at=NOW)
    assert states(car, "wheel_torque") == ["stands"]
    assert [run.since for run in runs_of(car.garage, [car], NOW)[car.pk]] == [NOW - 2 * HOUR]


def test_a_first_session_counts_while_the_event_goes_on_and_no_longer_once_taken_back(cast, car):
    entry = entered(car, cast, NOW + HOUR)
    take(car, "wheel_torque", cast.owner, at=NOW - HOUR)
    run = runs.first_session(entry, by=cast.owner, at=NOW)
    assert states(car, "wheel_torque") == ["ran"]
    runs.not_run(run, by=cast.owner, at=NOW)
    assert states(car, "wheel_torque") == ["stands"]


def test_that_it_did_not_run_is_said_after_the_event_and_once(cast, car):
    ahead = entered(car, cast, NOW + timedelta(seconds=1))
    with pytest.raises(Refused, match="is not over yet"):
        runs.did_not_run(ahead, by=cast.owner, at=NOW)
    entry = entered(car, cast, NOW, name="Kiln Lane")
    runs.did_not_run(entry, by=cast.owner, at=NOW)
    for again in (runs.did_not_run, runs.first_session):
        with pytest.raises(Refused, match="take that back first"):
            again(entry, by=cast.owner, at=NOW)
    other = entered(VehicleFactory(garage=cast.garage), cast, NOW)
    runs.first_session(other, by=cast.owner, at=NOW)
    with pytest.raises(Refused, match="written down already"):
        runs.did_not_run(other, by=cast.owner, at=NOW)


def test_a_car_that_was_withdrawn_before_the_gates_opened_ran_nowhere(cast, car):
    take(car, "wheel_torque", cast.owner, at=NOW - DAY)
    entry = entered(car, cast, NOW)
    assert states(car, "wheel_torque") == ["ran"]
    gates = entry.event.gates_at
    for withdrawn, state in ((gates, "ran"), (gates - timedelta(seconds=1), "stands")):
        entry.withdrawn_at = withdrawn
        entry.save()
        assert states(car, "wheel_torque") == [state]


def test_a_car_that_did_not_run_may_still_be_taken_out_and_one_that_ran_may_not(cast, car):
    stayed, ran = entered(car, cast, NOW), entered(car, cast, NOW, name="Kiln Lane")
    runs.did_not_run(stayed, by=cast.owner, at=NOW)
    assert take_out(stayed, at=NOW)
    runs.first_session(ran, by=cast.owner, at=NOW)
    with pytest.raises(Refused, match="has run at Kiln Lane"):
        take_out(ran, at=NOW)


def test_a_kind_of_the_garages_own_lapses_with_what_it_follows(cast, car):
    own = OwnKind.objects.create(garage=cast.garage, name="Nut paint", unit="mm", follows="wheel_torque")
    take(car, own.key, cast.owner, at=NOW - DAY)
    entered(car, cast, NOW)
    assert states(car, own.key) == ["ran"]


def test_a_garage_says_how_old_its_readings_may_be(owner, helper, cast, car):
    require(car, cast.owner, "camber", "caster")
    for key in ("camber", "caster"):
        take(car, key, cast.owner, at=NOW - 30 * DAY)
    address = "/readings/ages/"
    assert states(car, "camber", "caster") == ["stands", "stands"]
    assert helper.press(address, {"every": "29"}).status_code == 403
    assert owner.press(address, {"every": "29", "days_camber": "30"}).status_code == 303
    assert states(car, "camber", "caster") == ["stands", "old"]
    assert states(car, "camber", at=NOW + timedelta(seconds=1)) == ["old"]
    assert "It was taken Sun 31 Jan 17:00, and counts for 29 days." in text(owner, url("reading_list", car))
    assert "Too old to count: Caster." in " ".join(reason.sentence for reason in verdict_of(car, NOW).reasons)
    assert owner.press(address, {"every": ""}).status_code == 303
    assert not ReadingAge.objects.exists()


@pytest.mark.parametrize("wrong", ["0", "3651", "-1", "x", "1.5"])
def test_days_beyond_all_sense_are_refused_and_kept(owner, car, wrong):
    answer = owner.press("/readings/ages/", {"every": wrong})
    assert answer.status_code == 422 and f'value="{wrong}"' in answer.content.decode()
    assert not ReadingAge.objects.exists()


def test_what_lapsed_is_struck_through_and_not_judged_on_page_and_paper(owner, cast, car):
    take(car, "wheel_torque", cast.owner, at=NOW - DAY, amount=110_000)
    limit(car, "wheel_torque")
    assert "(in)" in text(owner, url("reading_page", car, "wheel_torque"))
    entered(car, cast, NOW)
    page = text(owner, url("reading_page", car, "wheel_torque"))
    last = page.split(">Last<")[1].split(">All of them<")[0]
    assert "<s>110" in last and "not judged" not in page.split(">All of them<")[0]
    assert "not known: measure again" in page.split(">All of them<")[1]
    assert "(in)" not in page and "(out)" not in page
    assert "<s>110" in text(owner, url("reading_list", car))
    (kind,) = setup_sheet(car, NOW).kinds
    assert kind.lapsed and not any(value.judged for value in kind.values)
