"""Two people who sign, finish or torque in the same moment; threads, on PostgreSQL alone.

The tests' own SQLite is in memory, where threads share a connection and writers take turns anyway.
"""

import uuid
from collections.abc import Callable
from threading import Barrier, Thread

import pytest
from django.db import connection

from builds.joints import actions as joints
from builds.joints.models import Joint, JointMark
from builds.steps.actions import hold_points, steps
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job
from garage.actions.refused import Refused
from tests.conftest import make_cast
from tests.factories import NOW, HoldPointFactory, JobFactory, MembershipFactory, VehicleFactory

pytestmark = [
    pytest.mark.django_db(transaction=True),
    pytest.mark.skipif(connection.vendor != "postgresql", reason="needs writers that wait for each other: PostgreSQL"),
]
ROUNDS = 10


def at_once(*acts: Callable[[], object]) -> list[str]:
    """What each was refused with, let loose together; a connection of its own for each."""
    barrier, told = Barrier(len(acts)), []

    def run(act):
        barrier.wait()
        try:
            act()
        except Refused as refused:
            told.append(str(refused))
        finally:
            connection.close()

    threads = [Thread(target=run, args=[act]) for act in acts]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return told


@pytest.fixture
def cast():
    return make_cast()


def stopped(cast):
    car = VehicleFactory(garage=cast.garage)
    job = JobFactory(vehicle=car, rank="safety", kinds=["wheel_off"], made_by=cast.owner)
    points = [HoldPointFactory(job=job, what=what) for what in ("No air", "No leak")]
    steps.start(job, by=cast.helper, at=NOW)
    return job, points


def test_the_last_two_points_signed_at_once_leave_no_job_held(cast):
    otto = MembershipFactory(garage=cast.garage, person__name="Otto")
    for _ in range(ROUNDS):
        job, points = stopped(cast)
        steps.finish(job, by=cast.helper, at=NOW)
        eyes = (cast.owner, otto)
        fresh = [HoldPoint.objects.get(pk=point.pk) for point in points]
        signs = [lambda p=p, e=e: hold_points.sign(p, by=e, at=NOW) for p, e in zip(fresh, eyes, strict=True)]
        assert at_once(*signs) == []
        assert Job.objects.get(pk=job.pk).state == "signed"


def test_finished_while_its_last_point_is_signed_no_job_is_left_held(cast):
    for _ in range(ROUNDS):
        job, points = stopped(cast)
        hold_points.sign(points[0], by=cast.owner, at=NOW)
        fresh = HoldPoint.objects.get(pk=points[1].pk)
        told = at_once(
            lambda job=job: steps.finish(Job.objects.get(pk=job.pk), by=cast.helper, at=NOW),
            lambda fresh=fresh: hold_points.sign(fresh, by=cast.owner, at=NOW),
        )
        assert told == []
        assert Job.objects.get(pk=job.pk).state in ("signed", "done")
        assert not HoldPoint.objects.filter(job=job).unsigned().exists()


def test_one_point_signed_twice_at_once_counts_once(cast):
    otto = MembershipFactory(garage=cast.garage, person__name="Otto")
    for _ in range(ROUNDS):
        _, points = stopped(cast)
        fresh = [HoldPoint.objects.get(pk=points[0].pk) for _ in range(2)]
        eyes = (cast.owner, otto)
        signs = [lambda p=p, e=e: hold_points.sign(p, by=e, at=NOW) for p, e in zip(fresh, eyes, strict=True)]
        assert at_once(*signs) == ["This hold point is signed already."]


def test_of_two_torques_drawn_after_the_same_mark_one_is_told(cast):
    car = VehicleFactory(garage=cast.garage)
    for number in range(ROUNDS):
        joint = Joint.objects.create(vehicle=car, name=f"Hub nut {number}", systems=["wheels"])
        marks = [
            lambda joint=joint, by=by: joints.mark(joint, by=by, at=NOW, key=uuid.uuid4(), torque_mnm=1000, after=0)
            for by in (cast.owner, cast.helper)
        ]
        (told,) = at_once(*marks)
        assert "torqued it meanwhile" in told
        assert JointMark.objects.filter(joint=joint).count() == 1
