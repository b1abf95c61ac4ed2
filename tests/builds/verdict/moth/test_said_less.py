"""Work said less of than was likely, and what was seen in words that nobody could read: none of it goes away unsaid."""

import uuid
from datetime import timedelta

import pytest

from builds.joints import actions as joints
from builds.readings.facts.readings import readings_of
from builds.steps.actions import findings, jobs, steps
from builds.steps.facts.by_words import told_new
from builds.verdict.facts.verdict import verdict_of
from builds.work.models.job import Job
from garage.actions.refused import Refused
from tests.builds.verdict.moth_kit import tick_all
from tests.factories import NOW

pytestmark = [pytest.mark.once, pytest.mark.usefixtures("now")]
HOUR = timedelta(hours=1)
WORK = (30, 60, 90)
TITLE = "Replace tie rod end, left"


@pytest.fixture
def car(moth, cast):
    car = moth[1].vehicle
    told = {"systems": ["steering"], "opened_by": ["joint_opened", "steering_arm", "jam_nut"]}
    rod = joints.add(car, name="Tie rod end, left", **told)
    joints.mark(rod, by=cast.helper, at=NOW, key=uuid.uuid4())
    joints.sign(rod, by=cast.owner, at=NOW, key=uuid.uuid4())
    assert verdict_of(car, NOW).state == "fit"
    return car


def written(car, cast, title=TITLE):
    told = told_new(car.garage_id, title).fields
    return jobs.add(car, by=cast.helper, at=NOW, title=title, work=WORK, **told)


def changed(job, by, **more):
    told = {"systems": job.systems, "kinds": job.kinds, "rank": job.rank, "lowered_because": "", "stations": {}}
    job = Job.objects.get(pk=job.pk)
    return jobs.change(job, by=by, at=NOW + 4 * HOUR, work=WORK, left_minutes=None, **{**told, **more})


def finished(job, cast, **told):
    steps.start(job, by=cast.helper, at=NOW + HOUR)
    steps.finish(job, by=cast.helper, at=NOW + 2 * HOUR, **told)
    return job


def at_last(car, cast):
    """Everything ticked again, and nothing measured or marked."""
    tick_all(cast, NOW + 5 * HOUR)
    return verdict_of(car, NOW + 6 * HOUR)


class TestLessThanLikely:
    @pytest.mark.parametrize("kinds", [["brake_vacuum"], ["lock_stop"]])
    def test_a_finish_that_leaves_out_what_is_likely_says_why_whatever_else_it_ticks(self, cast, car, kinds):
        job = written(car, cast)
        with pytest.raises(Refused, match="Say in words why") as refused:
            finished(job, cast, kinds=kinds)
        assert refused.value.field == "because"
        steps.finish(job, by=cast.helper, at=NOW + 2 * HOUR, kinds=kinds, because="only the gaiter was changed")
        steps.sign(job, by=cast.owner, at=NOW + 3 * HOUR)
        said = at_last(car, cast)
        assert said.state != "fit" or "only the gaiter was changed" in said.on_word[0]
        assert ("steering_arm" in job.not_opened, job.nothing_because) == (True, "only the gaiter was changed")

    def test_a_length_adjusted_alone_leaves_toe_and_nuts_void(self, cast, car):
        why = "the rod stayed, its end was turned"
        finished(written(car, cast), cast, kinds=["length_adjusted"], because=why)
        lines = readings_of(car.garage, [car], NOW + 3 * HOUR)[car.pk].lines
        assert {lines[kind].state for kind in ("toe_front", "wheel_torque")} == {"void"}
        assert "Loose: Tie rod end, left." in str([reason.sentence for reason in at_last(car, cast).reasons])

    def test_all_that_is_likely_asks_nothing(self, cast, car):
        job = written(car, cast)
        finished(job, cast, kinds=job.kinds)
        assert (job.state, job.not_opened, job.nothing_because) == ("done", [], "")

    def test_kinds_unticked_before_the_start_are_asked_for_at_the_finish(self, cast, car):
        job = written(car, cast)
        changed(job, cast.helper, kinds=["lock_stop"], kinds_likely=False)
        job.refresh_from_db()
        with pytest.raises(Refused, match=r"Say in words why this was not: .*jam nut slackened"):
            finished(job, cast)

    def test_kinds_ticked_otherwise_when_it_was_written_down_are_asked_for_at_the_finish(self, cast, car):
        told = told_new(car.garage_id, TITLE, ["steering"], ["lock_stop"]).fields
        job = jobs.add(car, by=cast.helper, at=NOW, title=TITLE, work=WORK, **told)
        assert (job.kinds, job.kinds_likely) == (["lock_stop"], False)
        with pytest.raises(Refused, match=r"Say in words why this was not: .*jam nut slackened"):
            finished(job, cast)

    def test_by_its_form(self, cast, car, helper):
        job = written(car, cast)
        steps.start(job, by=cast.helper, at=NOW)
        sent = {"told": "True", "kinds": ["lock_stop"]}
        answer = helper.press(f"/jobs/{job.pk}/finish/", sent)
        assert "Say in words why this was not" in answer.context["form"].errors["because"][0]
        helper.press(f"/jobs/{job.pk}/finish/", {**sent, "because": "only the stop was moved"})
        job.refresh_from_db()
        assert (job.state, job.nothing_because) == ("done", "only the stop was moved")
        assert "Not done in it: steering arm" in helper.get(f"/jobs/{job.pk}/").content.decode()


class TestTakenOffAfterwards:
    @pytest.mark.parametrize("less", [{"kinds": []}, {"kinds": ["lock_stop"], "systems": ["body"]}])
    def test_the_owner_says_why_and_the_verdict_says_so(self, cast, car, less):
        job = written(car, cast)
        finished(job, cast, kinds=job.kinds)
        steps.sign(job, by=cast.owner, at=NOW + 3 * HOUR)
        assert verdict_of(car, NOW + 4 * HOUR).do_not_drive
        with pytest.raises(Refused, match="Say in words why this was not"):
            changed(job, cast.owner, **less)
        changed(job, cast.owner, because="it was another car", title="Wash the mats", **less)
        said = at_last(car, cast)
        assert any(TITLE in line and "it was another car" in line for line in said.on_word), said.on_word
        assert ("Fit to run" not in said.sentence) or "finished as having opened" in said.sentence

    def test_by_its_form_and_on_the_sheet(self, cast, car, owner):
        job = written(car, cast)
        finished(job, cast, kinds=job.kinds)
        steps.sign(job, by=cast.owner, at=NOW + 3 * HOUR)
        job.refresh_from_db()
        figures = {"likely": "60 min", "low": "30 min", "high": "90 min", "hands": "1", "weight": "1", "splits": "on"}
        sent = {"title": job.title, "vehicle": car.pk, "systems": job.systems, "rank": job.rank, "kinds": [], **figures}
        answer = owner.press(f"/jobs/{job.pk}/edit/", sent)
        assert "Say in words why" in answer.context["form"].errors["because"][0]
        owner.press(f"/jobs/{job.pk}/edit/", {**sent, "because": "the end was never touched"})
        assert "the end was never touched" in owner.get(f"/cars/{car.pk}/").content.decode()

    def test_opened_again_it_is_asked_for_at_its_next_finish(self, cast, car):
        job = written(car, cast)
        finished(job, cast, kinds=job.kinds)
        changed(job, cast.owner, kinds=["lock_stop"], because="it was another car")
        job.refresh_from_db()
        steps.reopen(job, by=cast.helper, at=NOW + 5 * HOUR, reason="once more")
        with pytest.raises(Refused, match="Say in words why this was not"):
            steps.finish(job, by=cast.helper, at=NOW + 6 * HOUR)


class TestSeenAndNotRead:
    SMELL = "stinks in here like a filling station"

    @pytest.fixture
    def smell(self, cast, car):
        mats = written(car, cast, "Wash the mats")
        steps.start(mats, by=cast.helper, at=NOW)
        smell = findings.found(mats, self.SMELL, hurts=False, by=cast.helper, at=NOW)
        steps.finish(mats, by=cast.helper, at=NOW + HOUR, kinds=[], because="washed them")
        return smell

    @pytest.mark.parametrize("more", [{"systems": ["body"]}, {"systems": ["body"], "kinds": ["paint"]}, {}])
    def test_whatever_a_helper_ticks_it_waits_for_a_look(self, cast, car, smell, more):
        changed(smell, cast.helper, title="Wash the doors", **more)
        smell.refresh_from_db()
        assert smell.was_called == self.SMELL
        with pytest.raises(Refused, match="Only the owner can drop what was found"):
            steps.drop(smell, by=cast.helper, at=NOW + 2 * HOUR, reason="nothing there at all")
        steps.finish(smell, by=cast.helper, at=NOW + 2 * HOUR, kinds=["paint"], because="wiped it")
        said = at_last(car, cast)
        sentences = [reason.sentence for reason in said.reasons]
        assert f"“Wash the doors” (was “{self.SMELL}”) is done, but nobody has signed it." in sentences
        with pytest.raises(Refused, match="worked on this"):
            steps.sign(smell, by=cast.helper, at=NOW + 3 * HOUR)
        steps.sign(smell, by=cast.owner, at=NOW + 3 * HOUR)
        assert at_last(car, cast).state == "fit"

    def test_finished_as_nothing_it_wants_a_reason_too(self, cast, car, smell):
        changed(smell, cast.helper, systems=["body"])
        smell.refresh_from_db()
        with pytest.raises(Refused, match="Say in words why nothing"):
            steps.finish(smell, by=cast.helper, at=NOW + 2 * HOUR, kinds=[])
        steps.finish(smell, by=cast.helper, at=NOW + 2 * HOUR, kinds=[], because="it was the mats")
        steps.sign(smell, by=cast.owner, at=NOW + 3 * HOUR)
        assert any(self.SMELL in line for line in at_last(car, cast).on_word)

    def test_the_owner_says_in_words_what_it_was(self, cast, car, smell):
        told = {"title": "Air the cabin", "systems": ["body"]}
        with pytest.raises(Refused, match="Only the owner says what it was"):
            changed(smell, cast.helper, **told, turned_out="a can in the boot")
        with pytest.raises(Refused, match="Say in words what it was"):
            changed(smell, cast.owner, **told, turned_out="x")
        changed(smell, cast.owner, **told, turned_out="a can in the boot")
        smell.refresh_from_db()
        assert (smell.was_called, smell.turned_out) == (self.SMELL, "a can in the boot")
        steps.finish(smell, by=cast.helper, at=NOW + 2 * HOUR, kinds=[])
        assert at_last(car, cast).state == "fit"

    def test_by_its_form_the_owner_alone_is_asked(self, cast, car, smell, owner, helper):
        assert "turned_out" not in helper.get(f"/jobs/{smell.pk}/edit/").context["form"].fields
        assert "turned_out" in owner.get(f"/jobs/{smell.pk}/edit/").context["form"].fields
