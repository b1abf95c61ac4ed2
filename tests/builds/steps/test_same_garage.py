"""Hands, stations and points of a job are of its own garage and car, and what is signed stays: asked of the acts."""

from datetime import timedelta

import pytest

from builds.steps.actions import hold_points, links, steps
from builds.work.models.hold_point import HoldPoint
from builds.work.models.link import StationHold
from garage.actions.refused import Refused
from tests.factories import NOW, HoldPointFactory, JobFactory, LinkFactory, StationFactory, VehicleFactory


@pytest.fixture
def job(cast):
    return JobFactory(vehicle=VehicleFactory(garage=cast.garage, name="Heron"), title="Strip")


def test_everybody_on_a_job_is_of_its_garage(cast, job):
    for crew in ([cast.stranger], [cast.owner, cast.stranger]):
        with pytest.raises(Refused, match="Everybody on the job must be in this garage"):
            steps.start(job, by=cast.owner, at=NOW, crew=crew)
    steps.start(job, by=cast.owner, at=NOW, crew=[cast.owner, cast.helper])
    assert {member.pk for member in job.spans.get().crew.all()} == {cast.owner.pk, cast.helper.pk}


def test_a_place_is_kept_between_two_jobs_of_one_car_in_the_garage_it_stands_in(cast, job):
    after, other = JobFactory(vehicle=job.vehicle), JobFactory(vehicle=VehicleFactory(garage=cast.garage))
    bay = StationFactory(garage=cast.garage, name="Bay")
    with pytest.raises(Refused, match="Both jobs must be on the same car"):
        links.hold_station(bay, job, other)
    with pytest.raises(Refused, match="does not come after “Strip”: link them first"):
        links.hold_station(bay, job, after)
    LinkFactory(before=job, after=after)
    with pytest.raises(Refused, match="The station must be in the same garage"):
        links.hold_station(StationFactory(garage=cast.stranger.garage), job, after)
    assert not StationHold.objects.exists()
    links.hold_station(bay, job, job)
    links.hold_station(bay, job, after)


def test_a_point_is_signed_once_work_has_begun_and_once_and_then_stays(cast, job):
    point, spare = HoldPointFactory(job=job, what="Root pass"), HoldPointFactory(job=job, what="Fit-up")

    def sign():
        return hold_points.sign(point, by=cast.owner, at=NOW + timedelta(hours=1))

    with pytest.raises(Refused, match="has not begun: there is nothing to look at yet"):
        sign()
    steps.start(job, by=cast.helper, at=NOW)
    assert not sign()
    with pytest.raises(Refused, match="This hold point is signed already"):
        sign()
    point.refresh_from_db()
    with pytest.raises(Refused, match="A signed hold point stays"):
        hold_points.remove(point)
    hold_points.remove(spare)
    assert HoldPoint.objects.get() == point


def test_the_work_waits_at_a_point_that_is_not_signed(cast, job):
    point = HoldPointFactory(job=job)
    steps.finish(job, by=cast.helper, at=NOW)
    point.refresh_from_db()
    assert point.job.state == "held"
    with pytest.raises(Refused, match="The work waits at this hold point"):
        hold_points.remove(point)
