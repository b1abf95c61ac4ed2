"""Signing off: a second pair of eyes, unless there is only one in the garage."""

import uuid
from datetime import timedelta

import pytest

from builds.steps.actions import hold_points, steps
from builds.verdict.facts.verdict import verdict_of
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job
from builds.work.models.span import Span
from tests.factories import NOW, HoldPointFactory, JobFactory, LinkFactory, MembershipFactory, VehicleFactory


@pytest.fixture
def job(cast):
    return JobFactory(vehicle=VehicleFactory(garage=cast.garage, name="Heron"), title="Weld it", kinds=["paint"])


def tap(client, job, step, **data):
    answer = client.press(f"/jobs/{job.pk}/{step}/", data)
    job.refresh_from_db()
    return answer


def said(client, path="/people/"):
    """The messages that the next page shows."""
    return [str(message) for message in client.get(path).context["messages"]]


def test_a_safety_job_is_signed_by_somebody_who_did_not_work_on_it(owner, helper, job, now):
    Job.objects.filter(pk=job.pk).update(rank="safety")
    tap(helper, job, "start")
    tap(helper, job, "finish")
    answer = tap(helper, job, "sign")
    assert (job.state, answer.status_code) == ("done", 422)
    assert answer.context["form"].errors["who"] == ["Tove worked on this: somebody else has to look at it and sign."]
    tap(owner, job, "sign")
    assert (job.state, job.signed_by.name, job.signed_alone) == ("signed", "Ines", False)


def test_a_lowered_rank_does_not_let_the_worker_sign_his_own_joint(helper, job, now):
    Job.objects.filter(pk=job.pk).update(rank="wanted", systems=["brakes"], lowered_because="colour only")
    for step in ("start", "finish", "sign"):
        tap(helper, job, step)
    assert job.state == "done"


def test_who_finished_it_untouched_counts_as_having_worked_on_it(helper, job, now):
    Job.objects.filter(pk=job.pk).update(rank="safety")
    tap(helper, job, "finish")
    helper.press(f"/jobs/{job.pk}/sign/")
    job.refresh_from_db()
    assert job.state == "done"


def test_the_one_with_the_phone_can_say_who_looked_unless_he_worked_on_it(owner, helper, job, cast, now):
    other = MembershipFactory(garage=cast.garage, person__name="Otto")
    Job.objects.filter(pk=job.pk).update(rank="safety")
    tap(helper, job, "finish")
    answer = tap(helper, job, "sign", who=other.pk)
    assert answer.context["form"].errors["who"] == [
        "Tove worked on this and cannot write down another's look: Otto signs it."
    ]
    tap(owner, job, "sign", who=other.pk)
    assert (job.state, job.signed_by, job.signed_written_by) == ("signed", other, cast.owner)
    last = Span.objects.filter(job=job).last()
    assert (last.by, last.note) == (cast.owner, "Otto looked at it")


def test_what_hurts_nobody_may_be_written_down_by_whoever_did_it(owner, job, cast, now):
    tap(owner, job, "finish")
    tap(owner, job, "sign", who=cast.helper.pk)
    assert (job.state, job.signed_by, job.signed_written_by) == ("signed", cast.helper, cast.owner)


def test_whom_the_owner_does_not_let_sign_says_of_nobody_that_he_looked(helper, job, cast, now):
    Job.objects.filter(pk=job.pk).update(rank="safety")
    point = HoldPoint.objects.create(job=job, what="Look at the weld")
    cast.helper.may_sign = False
    cast.helper.save()
    tap(helper, job, "finish")
    helper.press(f"/hold-points/{point.pk}/sign/", {"who": cast.owner.pk, "seen": "all good"})
    point.refresh_from_db()
    assert point.signed_at is None
    point.delete()
    Job.objects.filter(pk=job.pk).update(state="done")
    answer = tap(helper, job, "sign", who=cast.owner.pk)
    assert "Tove may not sign" in answer.content.decode() and job.state == "done"


def test_a_viewer_or_a_stranger_is_no_second_pair_of_eyes(owner, job, cast, now):
    Job.objects.filter(pk=job.pk).update(rank="safety")
    tap(owner, job, "finish")
    for who in (cast.viewer, cast.stranger):
        answer = tap(owner, job, "sign", who=who.pk)
        assert answer.context["form"].errors["who"] == ["Choose somebody of this garage."]


def test_somebody_alone_in_his_garage_signs_and_that_is_recorded(stranger, cast, now):
    car = VehicleFactory(garage=cast.stranger.garage)
    job = JobFactory(vehicle=car, rank="safety", made_by=cast.stranger)
    tap(stranger, job, "finish")
    tap(stranger, job, "sign")
    assert (job.state, job.signed_alone) == ("signed", True)
    assert Span.objects.filter(job=job).last().note == "signed alone: everybody here worked on it"
    assert "alone" in stranger.get(f"/jobs/{job.pk}/").content.decode()


def test_reopening_voids_signatures_and_names_what_came_after(owner, helper, job, cast, now):
    point = HoldPointFactory(job=job)
    tap(helper, job, "finish")
    owner.press(f"/hold-points/{point.pk}/sign/")
    after = JobFactory(vehicle=job.vehicle, title="Paint it", state="done", finished_at=NOW)
    LinkFactory(before=job, after=after)
    tap(owner, job, "reopen", reason="cracked")
    assert (job.state, job.signed_by, job.finished_at) == ("open", None, None)
    assert HoldPoint.objects.get().signed_at is None
    assert said(owner)[-1] == (
        "“Weld it” is open again. 1 hold point must be signed again."
        " “Paint it” came after it: see whether that must be done again."
    )


def test_a_look_before_the_work_was_over_is_no_look_at_the_work(cast, job):
    Job.objects.filter(pk=job.pk).update(rank="safety", recipe="arm", batch=uuid.uuid4(), kinds=["steering_arm"])
    job.refresh_from_db()
    point = HoldPoint.objects.create(job=job, what="Look at the arm")
    steps.start(job, by=cast.helper, at=NOW)
    hold_points.sign(point, by=cast.owner, at=NOW + timedelta(minutes=1))
    steps.finish(job, by=cast.helper, at=NOW + timedelta(minutes=9))
    found = verdict_of(job.vehicle, NOW + timedelta(hours=1)).reasons
    assert "“Weld it” is done, but nobody has signed it." in [each.sentence for each in found]


def test_only_those_are_offered_who_may_have_looked(owner, helper, job, cast, now):
    otto = MembershipFactory(garage=cast.garage, person__name="Otto")
    Job.objects.filter(pk=job.pk).update(rank="safety")
    tap(helper, job, "finish")
    offered = owner.get(f"/jobs/{job.pk}/sign/").context["form"].fields["who"].choices
    assert next(iter(offered)) == ("", "me") and (otto.pk, "Otto") in offered
    assert {cast.owner.pk, cast.helper.pk}.isdisjoint(dict(offered))
    offered = helper.get(f"/jobs/{job.pk}/sign/").context["form"].fields["who"].choices
    assert list(offered) == [("", "nobody: whoever looks signs in and signs")]
