"""A job that only measures is not split where a session is as long as it takes."""

import pytest

from builds.plan.engine.one_go import in_one_go
from builds.planner.problem import Station
from builds.work.models.job import Job
from tests.builds.plan.plan_kit import evenings, planned, starts
from tests.builds.plan.plan_kit import job as job_of
from tests.builds.planner.makers import job, person
from tests.factories import VehicleFactory

EVENINGS = ((0, 4), (20, 24), (40, 52))


@pytest.mark.parametrize(
    ("keys", "splits"),
    [
        ({"work": 4}, False),
        ({"work": 12}, False),
        ({"work": 13}, True),
        ({"work": 5, "due": 40}, True),
        ({"work": 4, "due": 40}, False),
        ({"work": 4, "earliest": 2, "due": 20}, True),
        ({"work": 4, "uses": {"floor": 1}}, True),
        ({"work": 3, "uses": {"floor": 1}}, False),
        ({"work": 4, "hands": 2}, True),
        ({"work": 2, "hands": 2}, False),
        ({"work": 4, "skill": "align"}, True),
        ({"work": 2, "skill": "align"}, False),
        ({"work": 4, "crew": ("ines",)}, True),
    ],
)
def test_it_is_done_in_one_go_unless_it_is_longer_than_any_session(keys, splits):
    people = (person("ines", windows=EVENINGS), person("tove", "align", windows=((2, 4),)))
    made = job("weigh", **keys)
    assert in_one_go(made, people, (Station("floor", 1, ((21, 24), (40, 41))),), 60).splits == splits


@pytest.mark.usefixtures("now")
def test_nobody_weighs_a_car_in_two_evenings(cast):
    evenings(cast.owner)
    wren = VehicleFactory(garage=cast.garage, name="Wren")
    minutes = {"low_minutes": 150, "likely_minutes": 150, "high_minutes": 150}
    job_of(wren, cast, "Fit the fan", rank="safety", **minutes)
    weigh = job_of(wren, cast, "Weigh it", **minutes)
    assert starts(planned(cast.garage))["Weigh it"][0] == "Tue 20:30"
    Job.objects.filter(pk=weigh.pk).update(measures=["corner_weights"])
    assert starts(planned(cast.garage))["Weigh it"][:2] == ("Wed 18:00", "Wed 20:30")
