"""What a failed line opens, and which work leaves a tick as it is."""

import uuid
from datetime import timedelta

import pytest

from builds.scrutineering.actions import check_lists, checks
from builds.scrutineering.engine.ticks import void_of
from builds.scrutineering.models.check import CheckItem
from builds.steps.actions import steps
from builds.work.facts.car_works import works_of
from garage.actions.refused import Refused
from tests.builds.scrutineering.check_kit import entered, item_of, made, tap, worked
from tests.factories import NOW

HOUR = timedelta(hours=1)
pytestmark = pytest.mark.usefixtures("now")


def test_its_job_asks_at_its_finish_what_was_opened_with_the_likely_ticked(helper, cast):
    item = item_of(made(cast), "wheel-nuts")
    job = tap(item, "fail", cast.helper).row.job
    assert (job.kinds, job.kinds_likely) == (["wheel_off", "wheel_or_spacer", "hub_opened"], True)
    with pytest.raises(Refused, match="Tick what was opened"):
        steps.finish(job, by=cast.helper, at=NOW)
    form = helper.get(f"/jobs/{job.pk}/finish/").context["form"]
    assert form["kinds"].value() == job.kinds


@pytest.fixture
def own_line(cast):
    text = "Mirrors, both doors\nPedal box free of play"
    check_lists.keep_organiser(cast.garage, at=NOW, name="Kiln Lane Club", text=text, with_shipped=False)
    check_lists.make(entered(cast, event__organiser="Kiln Lane Club"), by=cast.owner, at=NOW)
    return CheckItem.objects.get(text="Pedal box free of play")


def test_systems_guessed_for_an_organisers_line_are_confirmed_before_they_count(helper, cast, own_line):
    path = f"/checks/{own_line.pk}/fail/"
    form = helper.get(path).context["form"]
    assert form["systems"].value() == ["brakes"]
    helper.press(path, {"note": "Clutch pedal loose", "systems": ["gearbox"]})
    job = own_line.log.get().job
    assert (job.systems, job.rank) == (["gearbox"], "needed")


def test_a_guess_that_is_taken_off_whole_leaves_a_job_without_systems(helper, own_line):
    helper.press(f"/checks/{own_line.pk}/fail/", {"note": "Loose"})
    assert own_line.log.get().job.systems == []


def test_from_a_phone_that_nobody_could_ask_the_guess_stands(cast, own_line):
    job = checks.take(own_line, "fail", by=cast.helper, at=NOW, key=uuid.uuid4(), arrived=NOW).row.job
    assert (job.systems, job.rank) == (["brakes"], "safety")


def test_a_shipped_line_asks_nothing_of_its_systems(helper, cast):
    item = item_of(made(cast), "pedal")
    assert "systems" not in helper.get(f"/checks/{item.pk}/fail/").context["form"].fields


SKIN = {"systems": ["body", "paint", "glass"], "rank": "wanted"}
PAINTED_BULKHEAD = {"systems": ["fire"], "rank": "wanted", "lowered_because": "paint only"}


@pytest.mark.parametrize(
    ("key", "work", "holds"),
    [
        *((key, SKIN, True) for key in ("tow-eyes", "doors", "bulkheads", "glass")),
        *((key, {**SKIN, "rank": "needed"}, False) for key in ("tow-eyes", "doors", "bulkheads", "glass")),
        ("doors", {**SKIN, "rank": "safety"}, False),
        ("bulkheads", PAINTED_BULKHEAD, False),
        ("glass", {**SKIN, "kinds": ["glass_bonding"]}, False),
    ],
)
def test_wanted_work_on_the_skin_voids_no_tick(cast, key, work, holds):
    checklist = made(cast)
    item = item_of(checklist, key)
    tap(item, "tick", cast.helper)
    item.refresh_from_db()
    car = checklist.entry.vehicle
    worked(car, "Polish", ended=NOW + HOUR, **work)
    works = works_of(car.garage, [car], NOW + 2 * HOUR)[car.pk]
    assert (void_of(item, works, checklist.entry.event.gates_at, NOW + 2 * HOUR) == "") is holds


def test_what_fails_besides_on_the_same_line_has_a_job_of_its_own_and_both_are_mended(cast):
    """A bulb that was changed mends no brake hose."""
    item = next(item for item in made(cast).items.all() if item.systems == ["electrics"])
    lamp = tap(item, "fail", cast.helper, note="Rear lamp out").row.job
    same = tap(item, "fail", cast.helper, 1, note="rear lamp out").row.job
    hose = tap(item, "fail", cast.helper, 2, note="Its bracket cut into the brake hose", hurts=True).row.job
    bare = tap(item, "fail", cast.helper, 3).row.job
    assert lamp == same == bare != hose
    assert (lamp.rank, hose.rank) == ("needed", "safety")
    steps.finish(lamp, by=cast.helper, at=NOW + HOUR, kinds=["wiring"])
    with pytest.raises(Refused, match="Finish “Its bracket cut into the brake hose” first"):
        tap(item, "mend", cast.helper, 90)
