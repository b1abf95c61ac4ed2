"""Signing is one rule: Today, the job's page, the verdict and the act itself say the same."""

import uuid
from datetime import timedelta

import pytest
from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction

from builds.steps.actions import hold_points, steps
from builds.verdict.facts.fleet import facts_of
from builds.verdict.facts.verdict import verdict_of
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job
from garage.actions.refused import Refused
from tests.conftest import queries
from tests.factories import (
    NOW,
    EntryFactory,
    EventFactory,
    HoldPointFactory,
    JobFactory,
    LinkFactory,
    MembershipFactory,
    VehicleFactory,
)

pytestmark = pytest.mark.usefixtures("now")
ARM = {"systems": ["steering"], "kinds": ["joint_opened"], "rank": "safety", "recipe": "arm"}


@pytest.fixture
def car(cast):
    return VehicleFactory(garage=cast.garage, name="Heron")


def done(car, hands, **more):
    job = JobFactory(vehicle=car, made_by=car.garage.memberships.get(role="owner"), **more)
    steps.finish(job, by=hands, at=NOW)
    return job


def to_sign(client):
    return [(row.card.title, row.may_sign) for row in client.get("/").context["view"].to_sign]


def on_page(client, job):
    """Whether the job's page offers to sign it in one tap."""
    page = client.get(f"/jobs/{job.pk}/")
    return f'action="/jobs/{job.pk}/sign/"' in page.content.decode()


CASES = {
    "by hand": {"rank": "safety"},
    "by hand, lowered": {"rank": "wanted", "systems": ["brakes"], "lowered_because": "colour only"},
    "of a recipe, with joints and no hold point": {**ARM, "batch": uuid.uuid4()},
    "of a recipe, alone": ARM,
    "of a recipe, no joint": {**ARM, "kinds": ["wheel_off"]},
    "needed": {"rank": "needed", "systems": ["cooling"]},
}


@pytest.mark.parametrize("case", CASES)
def test_today_the_page_the_car_and_the_verdict_agree_on_what_is_to_be_signed(owner, helper, cast, car, case):
    job = done(car, cast.helper, title="Work", **CASES[case])
    wants = "no joint" not in case and case != "needed"
    assert to_sign(owner) == ([("Work", True)] if wants else [])
    assert to_sign(helper) == ([("Work", False)] if wants else [])
    assert on_page(owner, job) is wants
    assert not on_page(helper, job)
    told = helper.get(f"/jobs/{job.pk}/").content.decode()
    waits = "It waits to be looked at and signed by Ines, who signs in for it." in told
    assert waits is wants
    named = "“Work” is done, but nobody has signed it." in [r.sentence for r in verdict_of(car, NOW).reasons]
    assert named is wants
    if wants:
        with pytest.raises(Refused, match="Tove worked on this"):
            steps.sign(job, by=cast.helper, at=NOW)
        owner.press(f"/jobs/{job.pk}/sign/")
        job.refresh_from_db()
        assert (job.state, job.signed_by, job.signed_alone) == ("signed", cast.owner, False)
        assert to_sign(owner) == []


@pytest.fixture
def refit(cast, car):
    """Tove took the arm off; Otto refitted it, with a point at the end that looks at both."""
    otto = MembershipFactory(garage=cast.garage, person__name="Otto")
    batch = uuid.uuid4()
    strip = done(car, cast.helper, title="Take it off", batch=batch, **ARM)
    job = JobFactory(
        vehicle=car, made_by=car.garage.memberships.get(role="owner"), title="Refit it", batch=batch, **ARM
    )
    LinkFactory(before=strip, after=job)
    point = HoldPointFactory(job=job, what="Torques")
    steps.finish(job, by=otto, at=NOW)
    return job, point, otto


def test_nobody_signs_a_point_that_covers_work_of_his_on_another_job(owner, helper, cast, refit):
    job, point, otto = refit
    assert to_sign(helper) == [("Hold point: Torques", False)]
    assert not helper.get(f"/jobs/{job.pk}/").context["view"].points[0].may_sign
    for hand in (cast.helper, otto):
        with pytest.raises(Refused, match=f"{hand} worked on this: somebody else has to look at it and sign"):
            hold_points.sign(point, by=hand, at=NOW)
    assert to_sign(owner) == [("Hold point: Torques", True)]
    owner.press(f"/hold-points/{point.pk}/sign/")
    job.refresh_from_db()
    assert job.state == "signed"


def test_whom_a_point_is_not_about_may_sign_it(cast, car, refit):
    point = refit[1]
    Job.objects.filter(title="Take it off").update(systems=["fuel"])
    hold_points.sign(point, by=cast.helper, at=NOW)
    assert "“Take it off” is done, but nobody has signed it." in [r.sentence for r in verdict_of(car, NOW).reasons]


def test_work_that_leaves_no_joint_does_not_keep_its_hands_from_signing(cast, refit):
    point = refit[1]
    Job.objects.filter(title="Take it off").update(kinds=["wheel_off"])
    hold_points.sign(point, by=cast.helper, at=NOW)


def test_whoever_finishes_a_job_that_another_started_is_a_hand(cast, car):
    job = JobFactory(vehicle=car, made_by=car.garage.memberships.get(role="owner"), rank="safety")
    steps.start(job, by=cast.helper, at=NOW)
    steps.finish(job, by=cast.owner, at=NOW + timedelta(minutes=5))
    MembershipFactory(garage=cast.garage, person__name="Otto")
    for hand in (cast.helper, cast.owner):
        with pytest.raises(Refused, match=f"{hand} worked on this: somebody else has to look at it and sign"):
            steps.sign(job, by=hand, at=NOW + timedelta(minutes=6))


def test_a_look_from_outside_is_written_down_by_the_owner_and_marked_so(owner, helper, cast, car):
    job = done(car, cast.owner, title="Bleed", rank="safety")
    assert "outsider" not in helper.get(f"/jobs/{job.pk}/sign/").context["form"].fields
    with pytest.raises(Refused, match="Only the owner writes down that somebody from outside looked"):
        steps.sign(job, by=cast.helper, at=NOW, outsider="Pella")
    with pytest.raises(Refused, match="Either somebody of this garage looked, or somebody from outside"):
        steps.sign(job, by=cast.owner, who=cast.helper, at=NOW, outsider="Pella")
    for name in ("tove", "Priya", "Tóve"):
        with pytest.raises(Refused, match=f"{name} is of this garage, and signs as everybody here"):
            steps.sign(job, by=cast.owner, at=NOW, outsider=name)
    for name, wrong in ((".", "names nobody"), ("me", "names nobody"), ("Tove H", "reads like Tove of this garage")):
        answer = owner.press(f"/jobs/{job.pk}/sign/", {"outsider": name})
        assert wrong in answer.context["form"].errors["outsider"][0]
    owner.press(f"/jobs/{job.pk}/sign/", {"outsider": " Pella  of Kiln Lane "})
    job.refresh_from_db()
    assert (job.state, job.signed_outsider, job.signed_by, job.signed_alone) == (
        *("signed", "Pella of Kiln Lane"),
        *(cast.owner, False),
    )
    page = owner.get(f"/jobs/{job.pk}/").content.decode()
    assert "Pella of Kiln Lane (from outside), 17:00, written down by Ines" in page
    assert "Pella of Kiln Lane, from outside, looked at it" in page
    steps.reopen(job, by=cast.owner, at=NOW, reason="leaks")
    assert (job.signed_outsider, job.signed_written_by) == ("", None)


def test_at_a_hold_point_too(owner, cast, car):
    job = JobFactory(vehicle=car, made_by=car.garage.memberships.get(role="owner"), rank="safety")
    point = HoldPointFactory(job=job)
    steps.finish(job, by=cast.owner, at=NOW)
    owner.press(f"/hold-points/{point.pk}/sign/", {"outsider": "Pella"})
    point.refresh_from_db()
    assert (point.outsider, point.written_by, point.alone) == ("Pella", cast.owner, False)
    steps.reopen(Job.objects.get(pk=job.pk), by=cast.owner, at=NOW, reason="leaks")
    point.refresh_from_db()
    assert (point.outsider, point.written_by) == ("", None)


def test_no_row_names_an_outsider_who_signed_nothing(cast, car):
    job = JobFactory(vehicle=car, made_by=cast.owner)
    for model, field in ((Job, "signed_outsider"), (HoldPoint, "outsider")):
        row = job if model is Job else HoldPointFactory(job=job)
        with pytest.raises((IntegrityError, ValidationError)), transaction.atomic():
            model.objects.filter(pk=row.pk).update(**{field: "Pella"})


@pytest.fixture
def two_bled(cast, car):
    """Both people of the garage bled the brakes, and there are two points to look at."""
    job = JobFactory(
        vehicle=car, made_by=car.garage.memberships.get(role="owner"), title="Bleed", rank="safety", systems=["brakes"]
    )
    points = [HoldPointFactory(job=job, what=what) for what in ("No air", "No leak")]
    steps.start(job, by=cast.helper, crew=[cast.helper, cast.owner], at=NOW)
    steps.finish(job, by=cast.helper, at=NOW)
    return job, points


def test_where_everybody_worked_on_it_the_owner_signs_and_the_verdict_says_so(owner, cast, car, two_bled):
    job, points = two_bled
    with pytest.raises(Refused, match="Everybody here worked on this: the owner looks at it and signs"):
        hold_points.sign(points[0], by=cast.helper, at=NOW)
    assert to_sign(owner) == [("Hold point: No air", True), ("Hold point: No leak", True)]
    for point in points:
        owner.press(f"/hold-points/{point.pk}/sign/")
    job.refresh_from_db()
    assert (job.state, job.signed_alone) == ("signed", True)
    assert facts_of(car.garage, NOW, [car])[car.pk].alone == ("Ines", "Ines")
    assert verdict_of(car, NOW).besides == "Nobody but Ines has looked at 2 points."
    assert "Nobody but Ines has looked at 2 points." in owner.get(f"/cars/{car.pk}/").content.decode()
    assert "17:00, alone" in owner.get(f"/jobs/{job.pk}/").content.decode()


def test_with_somebody_who_did_not_work_on_it_in_the_garage_nobody_signs_alone(cast, two_bled):
    MembershipFactory(garage=cast.garage, may_sign=False)
    with pytest.raises(Refused, match="Ines worked on this: somebody else has to look at it and sign"):
        hold_points.sign(two_bled[1][0], by=cast.owner, at=NOW)


def test_what_was_signed_alone_counts_until_the_car_has_been_to_an_event(cast, car, two_bled):
    for point in two_bled[1]:
        point.refresh_from_db()
        hold_points.sign(point, by=cast.owner, at=NOW)
    event = EventFactory(garage=cast.garage, gates_at=NOW + timedelta(days=1))
    EntryFactory(event=event, vehicle=car)
    assert verdict_of(car, event.ends_at - timedelta(minutes=1)).besides
    assert not verdict_of(car, event.ends_at).besides


def test_finished_work_without_a_point_is_one_point(cast, car):
    cast.helper.left_at = NOW
    cast.helper.save()
    steps.sign(done(car, cast.owner, rank="safety"), by=cast.owner, at=NOW)
    assert verdict_of(car, NOW).besides == "Nobody but Ines has looked at 1 point."


def test_points_of_twenty_jobs_take_the_queries_of_one(owner, cast, car):
    def more():
        batch = uuid.uuid4()
        job = JobFactory(vehicle=car, made_by=car.garage.memberships.get(role="owner"), batch=batch, **ARM)
        HoldPointFactory(job=job)
        LinkFactory(before=done(car, cast.helper, batch=batch, **ARM), after=job)
        steps.finish(job, by=cast.helper, at=NOW)

    more()
    few = queries(owner, "/")
    for _ in range(9):
        more()
    assert queries(owner, "/") == few


def test_a_job_that_nobody_has_to_look_at_is_done_and_no_more(owner, cast, car):
    plain = done(car, cast.owner, title="Polish", rank="wanted")
    safety = done(car, cast.owner, title="Pads", systems=["brakes"], kinds=["friction_parts"], rank="safety")
    heads = {job: owner.get(f"/jobs/{job.pk}/").context["view"].card.word for job in (plain, safety)}
    assert heads == {plain: "done", safety: ""}
    assert "done, not signed" not in owner.get(f"/jobs/{plain.pk}/").content.decode()
    assert "done, not signed" in owner.get(f"/jobs/{safety.pk}/").content.decode()


def test_the_page_of_a_job_says_that_it_takes_more_than_work_here(owner, cast, car):
    few, enough = (JobFactory(vehicle=car, made_by=cast.owner, hands=hands) for hands in (9, 1))
    said = "It needs 9 at once, and"
    assert said in owner.get(f"/jobs/{few.pk}/").content.decode()
    assert "at once, and" not in owner.get(f"/jobs/{enough.pk}/").content.decode()
