"""Ways to a false "Fit" that time opens: work after a last act, a car that runs on, a clock that was wrong."""

import uuid

import pytest

from builds.events import actions as events
from builds.joints import actions as joints
from builds.readings.facts.kinds import kind_of
from builds.readings.facts.last_acts import last_acts
from builds.readings.forms.readings import begun_on, going_on
from builds.recipes.engine.parse import load_shipped
from builds.scrutineering.actions import checks, runs
from builds.scrutineering.models.check import CheckItem
from builds.steps.actions import hold_points, steps
from builds.verdict.facts.verdict import verdict_of
from builds.work.engine.again import BLEED_AGAIN, MEASURE_AGAIN
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job
from tests.builds.readings.reading_kit import take
from tests.builds.verdict.moth_kit import sign_bleed, tick_all
from tests.builds.verdict.ways_kit import DAY, HOUR, MINUTE, all_read, said, written
from tests.factories import NOW, EntryFactory, EventFactory

pytestmark = [pytest.mark.once, pytest.mark.usefixtures("now")]


@pytest.fixture
def nuts(cast, car):
    nuts = joints.add(car, name="Wheel nuts", systems=["wheels"], opened_by=["wheel_off"], again_after_run=True)
    torqued(nuts, cast, NOW)
    return nuts


def torqued(nuts, cast, at):
    joints.mark(nuts, by=cast.helper, at=at, key=uuid.uuid4())
    joints.sign(nuts, by=cast.owner, at=at, key=uuid.uuid4())


def done(job, cast, at, **more):
    steps.finish(Job.objects.get(pk=job.pk), by=cast.helper, at=at, **more)
    steps.sign(Job.objects.get(pk=job.pk), by=cast.owner, at=at + MINUTE)


class TestLastAct:
    """What was read as the last act of a job holds only where the job ended with it."""

    def read(self, car, cast, job, at):
        for kind in ("toe_front", "wheel_torque"):
            take(car, kind, cast.owner, at=at, last_of=job)

    @pytest.mark.parametrize(("begun", "after", "holds"), [
        ("put down", 30 * MINUTE, True), ("put down", 31 * MINUTE, False), ("put down", 4 * HOUR, False),
        ("never", 30 * MINUTE, True), ("never", 4 * HOUR, False), ("in hand", 4 * HOUR, False),
    ])  # fmt: skip
    def test_a_finish_long_after_it_may_have_been_work(self, cast, car, begun, after, holds):
        job, read = written(car, cast), NOW + HOUR
        if begun != "never":
            steps.start(job, by=cast.helper, at=NOW)
        if begun == "put down":
            steps.stop(job, by=cast.helper, at=read - MINUTE)
        self.read(car, cast, job, read)
        done(job, cast, read + after)
        tick_all(cast, read + after + HOUR)
        assert verdict_of(car, NOW + 12 * HOUR).state == ("fit" if holds else "not_fit")
        assert ("Void: Front toe" in said(car, NOW + 12 * HOUR)) is not holds

    @pytest.mark.parametrize("still", [True, False])
    def test_the_finish_asks_in_one_tick(self, cast, car, clock, still):
        job, read = written(car, cast), NOW - 4 * HOUR
        Job.objects.filter(pk=job.pk).update(made_at=read - 2 * HOUR)
        steps.start(job, by=cast.helper, at=read - HOUR)
        steps.stop(job, by=cast.helper, at=read - MINUTE)
        self.read(car, cast, job, read)
        clock.at = NOW + MINUTE
        address, helper = f"/jobs/{job.pk}/finish/", cast.client("helper")
        page = helper.press(address, {}).content.decode()  # one tap says nothing of it
        assert "Say whether anything was done to it after that" in page
        assert "when this was read: front toe, wheel torque" in page
        told = {"told": "1", "kinds": ["steering_arm"], **({"still": "on"} if still else {})}
        assert helper.press(address, told).status_code == 303
        job.refresh_from_db()
        assert job.finished_at == (read if still else NOW + MINUTE)
        assert ("Void: Front toe" in said(car, NOW + HOUR)) is not still

    def test_nothing_is_asked_of_a_finish_soon_after_it_or_of_other_readings(self, cast, car):
        job = written(car, cast)
        take(car, "toe_front", cast.owner, at=NOW + HOUR)
        self.read(car, cast, job, NOW + 4 * HOUR)
        assert last_acts(job, NOW + 4 * HOUR + 30 * MINUTE) is None
        assert last_acts(job, NOW + 4 * HOUR + 31 * MINUTE).ended == NOW + 4 * HOUR

    def test_what_was_read_before_hands_went_to_it_again_is_not_asked_about(self, cast, car):
        job = written(car, cast)
        self.read(car, cast, job, NOW + HOUR)
        steps.start(job, by=cast.helper, at=NOW + 2 * HOUR)
        assert going_on(begun_on(car), kind_of(cast.garage, "toe_front")) == [job]
        assert last_acts(job, NOW + 9 * HOUR) is None


class TestRunsOn:
    """From its first session on a car runs until the event is over."""

    def first_session(self, cast, car, ends):
        event = EventFactory(garage=cast.garage, name="Saltmarsh", gates_at=NOW + HOUR, ends_at=ends)
        runs.first_session(EntryFactory(event=event, vehicle=car), by=cast.helper, at=NOW + 2 * HOUR)
        return event

    def test_what_was_torqued_and_read_between_stands_during_the_event_and_not_after_it(self, cast, car, nuts):
        self.first_session(cast, car, NOW + 30 * HOUR)
        assert "Due for its re-torque: Wheel nuts" in said(car, NOW + 2 * HOUR + MINUTE)
        torqued(nuts, cast, NOW + 3 * HOUR)
        all_read(car, cast, NOW + 3 * HOUR)
        during, after = said(car, NOW + 29 * HOUR), said(car, NOW + 30 * HOUR)
        for sentence in ("Due for its re-torque: Wheel nuts", "Not known since the car ran: Wheel torque"):
            assert sentence not in during
            assert sentence in after
        torqued(nuts, cast, NOW + 30 * HOUR)
        all_read(car, cast, NOW + 30 * HOUR)
        assert verdict_of(car, NOW + 31 * HOUR).state == "fit"

    def test_also_where_the_event_was_made_longer_afterwards(self, cast, car):
        event = self.first_session(cast, car, NOW + 3 * HOUR)
        all_read(car, cast, NOW + 2 * HOUR + 10 * MINUTE)
        events.change(event, at=NOW + 2 * HOUR + 30 * MINUTE, gates_at=event.gates_at, ends_at=NOW + 40 * HOUR)
        assert "Not known since the car ran" not in said(car, NOW + 39 * HOUR)
        assert "Not known since the car ran: Wheel torque" in said(car, NOW + 40 * HOUR)


class TestDriven:
    """A shake-down is a run."""

    def test_what_running_changes_is_due_again(self, cast, car, nuts):
        job = written(car, cast, "Shake-down, 80 km on the road", systems=[], kinds=["driven"])
        steps.finish(job, by=cast.helper, at=NOW + HOUR)
        told = said(car, NOW + 2 * HOUR)
        assert "Due for its re-torque: Wheel nuts. It ran in “Shake-down, 80 km on the road”" in told
        assert "Not known since the car ran: Wheel torque. The car ran in “Shake-down, 80 km on the road”" in told
        assert "Front toe" not in told
        again = Job.objects.get(vehicle=car, recipe=MEASURE_AGAIN)
        assert (again.measures, again.state) == (["wheel_torque"], "open")
        torqued(nuts, cast, NOW + 3 * HOUR)
        all_read(car, cast, NOW + 3 * HOUR)
        again.refresh_from_db()
        assert again.state == "done"
        assert verdict_of(car, NOW + 4 * HOUR).state == "fit"

    @pytest.mark.parametrize("ends", ["put down", "dropped", "in hand"])
    def test_whatever_became_of_its_job(self, cast, car, nuts, ends):
        job = written(car, cast, "Round the block", systems=[], kinds=["driven"], rank="wanted")
        steps.start(job, by=cast.helper, at=NOW + HOUR)
        if ends != "in hand":
            steps.stop(job, by=cast.helper, at=NOW + 2 * HOUR)
        if ends == "dropped":
            steps.drop(job, by=cast.owner, at=NOW + 3 * HOUR, reason="it rains")
        assert "Due for its re-torque: Wheel nuts" in said(car, NOW + 4 * HOUR)

    def test_what_is_read_as_its_last_act_stands(self, cast, car):
        job = written(car, cast, "Shake-down", systems=[], kinds=["driven"])
        take(car, "wheel_torque", cast.owner, at=NOW + HOUR, last_of=job)
        steps.finish(job, by=cast.helper, at=NOW + HOUR + 10 * MINUTE)
        assert "Wheel torque" not in said(car, NOW + 2 * HOUR)

    @pytest.mark.parametrize("ends", [steps.stop, steps.finish])
    def test_unless_it_is_driven_on(self, cast, car, ends):
        job, read = written(car, cast, "Shake-down", systems=[], kinds=["driven"]), NOW + HOUR
        steps.start(job, by=cast.helper, at=NOW)
        steps.stop(job, by=cast.helper, at=read - MINUTE)
        take(car, "wheel_torque", cast.owner, at=read, last_of=job)
        assert "Wheel torque" not in said(car, read + MINUTE)
        steps.start(job, by=cast.helper, at=read + MINUTE)
        ends(job, by=cast.helper, at=read + 10 * MINUTE)
        assert "Not known since the car ran: Wheel torque" in said(car, NOW + 2 * HOUR)

    @pytest.mark.parametrize(
        "recipe", [one for one in load_shipped() if any("driven" in job.kinds for job in one.jobs)]
    )
    def test_nothing_in_a_shipped_recipe_waits_behind_the_drive(self, recipe):
        """What it makes due is taken in the job that measures again, which comes by itself."""
        drives = {job.key for job in recipe.jobs if "driven" in job.kinds}
        assert not any(link.job in drives for job in recipe.jobs for link in job.after)


class TestDayToCome:
    """What was written down by a clock that stood ahead is not known once that is put right."""

    def test_a_reading_and_what_is_taken_after_it(self, cast, car):
        take(car, "wheel_torque", cast.owner, at=NOW + 30 * DAY)
        assert "Not known: Wheel torque. It was written down for" in said(car, NOW + HOUR)
        take(car, "wheel_torque", cast.owner, at=NOW + 2 * HOUR)
        assert verdict_of(car, NOW + 3 * HOUR).state == "fit"

    def test_a_mark_its_signature_and_what_is_marked_after_it(self, cast, car, nuts):
        joints.mark(nuts, by=cast.helper, at=NOW + HOUR, key=uuid.uuid4())
        joints.sign(nuts, by=cast.owner, at=NOW + 30 * DAY, key=uuid.uuid4())
        assert "Not known to be tight: Wheel nuts. It was written down for" in said(car, NOW + 2 * HOUR)
        torqued(nuts, cast, NOW + 30 * DAY)
        assert "Not known to be tight: Wheel nuts. It was written down for" in said(car, NOW + 2 * HOUR)
        torqued(nuts, cast, NOW + 3 * HOUR)
        assert verdict_of(car, NOW + 4 * HOUR).state == "fit"

    def test_a_tick_that_is_taken_back_first(self, cast, car):
        tick_all(cast, NOW + 30 * DAY)
        assert "It was ticked for a day that is still to come" in said(car, NOW + HOUR)
        for item in CheckItem.objects.all():
            item = checks.undo(item, by=cast.owner, at=NOW + HOUR, key=uuid.uuid4()).item
            checks.take(item, "tick", by=cast.owner, at=NOW + HOUR, key=uuid.uuid4())
        assert verdict_of(car, NOW + 2 * HOUR).state == "fit"

    @pytest.mark.parametrize("point", [True, False])
    def test_a_signature(self, cast, car, point):
        job = written(car, cast, kinds=["joint_opened"])
        if point:
            hold_points.add(job, "Split pin in")
        steps.finish(job, by=cast.helper, at=NOW + HOUR)
        for hold in HoldPoint.objects.filter(job=job):
            hold_points.sign(hold, by=cast.owner, at=NOW + 30 * DAY)
        if not point:
            steps.sign(Job.objects.get(pk=job.pk), by=cast.owner, at=NOW + 30 * DAY)
        all_read(car, cast, NOW + 2 * HOUR)
        assert "“Replace the tie rod” was signed for a day that is still to come" in said(car, NOW + 3 * HOUR)
        steps.reopen(Job.objects.get(pk=job.pk), by=cast.owner, at=NOW + 3 * HOUR, reason="a wrong clock")
        steps.finish(Job.objects.get(pk=job.pk), by=cast.helper, at=NOW + 4 * HOUR)
        assert "still to come" not in said(car, NOW + 5 * HOUR)

    def test_one_of_two_points(self, cast, car):
        job = written(car, cast, kinds=["joint_opened"])
        first, last = (hold_points.add(job, what) for what in ("Split pin in", "Nut at its torque"))
        steps.finish(job, by=cast.helper, at=NOW + HOUR)
        hold_points.sign(first, by=cast.owner, at=NOW + 30 * DAY)
        hold_points.sign(last, by=cast.owner, at=NOW + 2 * HOUR)
        assert "“Replace the tie rod” was signed for a day that is still to come" in said(car, NOW + 3 * HOUR)

    def test_brakes_that_were_bled_are_looked_at_again(self, cast, car):
        job = written(car, cast, "Change a hose", systems=["brakes"], kinds=["hydraulics_opened"])
        steps.finish(job, by=cast.helper, at=NOW + HOUR)
        steps.sign(Job.objects.get(pk=job.pk), by=cast.owner, at=NOW + HOUR)
        all_read(car, cast, NOW + 2 * HOUR)
        bled = Job.objects.get(recipe=BLEED_AGAIN)
        sign_bleed(cast.helper, NOW + 30 * DAY)
        assert f"“{bled}” was signed for a day that is still to come" in said(car, NOW + 3 * HOUR)
        steps.reopen(Job.objects.get(pk=bled.pk), by=cast.owner, at=NOW + 3 * HOUR, reason="a wrong clock")
        assert verdict_of(car, NOW + 3 * HOUR).do_not_drive
        sign_bleed(cast.helper, NOW + 4 * HOUR)
        tick_all(cast, NOW + 4 * HOUR)
        assert verdict_of(car, NOW + 5 * HOUR).state == "fit"
