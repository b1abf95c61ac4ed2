"""Work for safety of which somebody says that it opened nothing, and work of which nobody has said anything yet."""

from datetime import timedelta

import pytest

from builds.readings.facts.readings import readings_of
from builds.steps.actions import jobs, steps
from builds.verdict.facts.verdict import verdict_of
from garage.actions.refused import Refused
from tests.builds.readings.reading_kit import take
from tests.builds.verdict.moth_kit import tick_all
from tests.factories import NOW, VehicleFactory

pytestmark = [pytest.mark.once, pytest.mark.usefixtures("now")]
HOUR = timedelta(hours=1)
WHY = "only looked at through the wheel"
TAKEN = ("ride_height", "toe_front", "wheel_torque")


@pytest.fixture
def car(cast):
    return VehicleFactory(garage=cast.garage, name="Badger")


@pytest.fixture
def hubs(entry, cast):
    return jobs.add(
        entry.vehicle, by=cast.helper, at=NOW, title="Change the front hubs", work=(60, 120, 180), systems=["wheels"]
    )


def states(car, at):
    return {readings_of(car.garage, [car], at)[car.pk].lines[kind].state for kind in TAKEN[1:]}


@pytest.mark.parametrize(("kinds", "because"), [([], ""), ([], "a.b.c."), ([], "12345678"), (["paint"], "")])
@pytest.mark.parametrize("who", ["owner", "helper"])
def test_work_for_safety_opened_nothing_only_with_a_reason_in_words(cast, hubs, who, kinds, because):
    by = getattr(cast, who)
    steps.start(hubs, by=by, at=NOW + HOUR)
    with pytest.raises(Refused, match="Say in words why nothing of it was opened") as refused:
        steps.finish(hubs, by=by, at=NOW + 2 * HOUR, kinds=kinds, because=because)
    assert refused.value.field == "because"
    hubs.refresh_from_db()
    assert hubs.state == "in_hand"
    steps.finish(hubs, by=by, at=NOW + 2 * HOUR, kinds=kinds, because=f" {WHY} ")
    assert (hubs.state, hubs.nothing_because) == ("done", WHY)


def test_what_was_written_down_before_is_no_word_of_the_finish(cast, car):
    """Who writes down that he paints a steering arm has said it; who says it at the end says why."""
    told = {"by": cast.helper, "at": NOW, "work": (60, 120, 180), "systems": ["steering"], "kinds": ["paint"]}
    for kinds in (None, ["paint"]):
        job = jobs.add(car, title="Paint the arm", **told)
        steps.finish(job, by=cast.helper, at=NOW + HOUR, kinds=kinds, because=WHY)
        assert (job.state, job.nothing_because) == ("done", "")
    job = jobs.add(car, title="Paint the arm", kinds_likely=True, **told)
    with pytest.raises(Refused, match="Say in words why"):
        steps.finish(job, by=cast.helper, at=NOW + HOUR, kinds=["paint"])


def test_what_opened_something_of_its_systems_keeps_no_reason(cast, hubs):
    steps.finish(hubs, by=cast.owner, at=NOW + HOUR, kinds=["wheel_off"], because=WHY)
    assert hubs.nothing_because == ""


def test_the_verdict_says_on_whose_word_it_rests_until_all_of_it_is_measured_again(entry, cast, hubs):
    car = entry.vehicle
    steps.finish(hubs, by=cast.helper, at=NOW + HOUR, kinds=[], because=WHY)
    steps.sign(hubs, by=cast.owner, at=NOW + 2 * HOUR)
    tick_all(cast, NOW + 3 * HOUR)
    verdict = verdict_of(car, NOW + 3 * HOUR)
    assert verdict.sentence == "Fit to run; 1 safety job was finished as having opened nothing"
    assert verdict.on_word == (
        f"“Change the front hubs” is said to have opened nothing: {WHY}. Older than that: Corner weights, Front toe "
        "and Wheel torque.",
    )
    for kind in ("corner_weights", *TAKEN[1:]):
        take(car, kind, cast.owner, at=NOW + 4 * HOUR)
    verdict = verdict_of(car, NOW + 4 * HOUR)
    assert (verdict.sentence, verdict.on_word) == ("Fit to run", ())


def test_page_and_paper_say_it_too(entry, cast, hubs, owner):
    steps.finish(hubs, by=cast.helper, at=NOW, kinds=[], because=WHY)
    steps.reopen(hubs, by=cast.helper, at=NOW, reason="it hums")
    hubs.refresh_from_db()
    assert hubs.nothing_because == ""
    steps.finish(hubs, by=cast.helper, at=NOW, kinds=[], because=WHY)
    assert f"is said to have opened nothing: {WHY}" in owner.get(f"/cars/{entry.vehicle_id}/").content.decode()


def test_what_nobody_has_said_stands_no_more_while_hands_are_on_it(entry, cast, hubs):
    """The arm may be off: only its finish says what was opened."""
    car = entry.vehicle
    assert states(car, NOW) == {"stands"}
    steps.start(hubs, by=cast.helper, at=NOW + HOUR)
    assert states(car, NOW + 2 * HOUR) == {"void"}
    said = [reason.sentence for reason in verdict_of(car, NOW + 2 * HOUR).reasons]
    assert any("“Change the front hubs” has been in hand since" in sentence for sentence in said)
    take(car, "wheel_torque", cast.owner, at=NOW + 2 * HOUR)
    assert states(car, NOW + 3 * HOUR) == {"void"}
    steps.stop(hubs, by=cast.helper, at=NOW + 3 * HOUR)
    assert states(car, NOW + 4 * HOUR) == {"void"}
    steps.finish(hubs, by=cast.helper, at=NOW + 4 * HOUR, kinds=[], because=WHY)
    assert states(car, NOW + 5 * HOUR) == {"stands"}


def test_what_was_dropped_half_way_is_taken_at_its_worst_until_the_owner_answers_for_it(entry, cast, hubs):
    car = entry.vehicle
    steps.start(hubs, by=cast.helper, at=NOW + HOUR)
    steps.drop(hubs, by=cast.owner, at=NOW + 2 * HOUR, reason="not before spring")
    assert states(car, NOW + 3 * HOUR) == {"void"}
    steps.whole(hubs, by=cast.owner, at=NOW + 3 * HOUR, reason="nothing was undone")
    assert states(car, NOW + 3 * HOUR) == {"stands"}


def test_a_reading_taken_in_the_job_as_its_last_act_holds_while_it_goes_on(entry, cast, hubs):
    car = entry.vehicle
    steps.start(hubs, by=cast.helper, at=NOW + HOUR)
    for kind in TAKEN[1:]:
        take(car, kind, cast.owner, at=NOW + 2 * HOUR, last_of=hubs)
    assert states(car, NOW + 3 * HOUR) == {"stands"}
