"""What a life by use refuses by itself."""

from datetime import date, timedelta

import pytest

from builds.gear.actions.life import plan_renewal, set_life
from builds.gear.engine import lasts_longer
from builds.gear.models import UseLife
from builds.work.models.job import Job
from garage.actions.refused import Refused
from garage.engine.gear import GearItem, Printed
from tests.builds.gear.gear_kit import piece
from tests.factories import NOW, VehicleFactory

SECOND = timedelta(seconds=1)


@pytest.fixture
def belts(cast):
    return piece(VehicleFactory(garage=cast.garage, name="Moth"))


def test_what_is_on_no_car_has_no_life_by_use(cast):
    loose = piece(garage=cast.garage)
    with pytest.raises(Refused, match="car"):
        set_life(loose, since=NOW, by=cast.owner, at=NOW, runs=10)
    UseLife.objects.create(gear=loose, since=NOW, runs=10)
    with pytest.raises(Refused, match="car"):
        plan_renewal(loose, by=cast.owner, at=NOW)
    assert not Job.objects.exists()


def test_it_begins_now_at_the_latest(cast, belts):
    with pytest.raises(Refused, match="That time is still to come") as refused:
        set_life(belts, since=NOW + SECOND, by=cast.owner, at=NOW, runs=10)
    assert refused.value.field == "since"
    set_life(belts, since=NOW, by=cast.owner, at=NOW, runs=10)
    assert UseLife.objects.get().runs == 10


def test_it_is_renewed_by_one_job_at_a_time_and_only_where_something_says_how_long_it_lasts(cast, belts):
    with pytest.raises(Refused, match="Nothing says how long it lasts"):
        plan_renewal(belts, by=cast.owner, at=NOW)
    set_life(belts, since=NOW, by=cast.owner, at=NOW, runs=10)
    plan_renewal(belts, by=cast.owner, at=NOW)
    with pytest.raises(Refused, match="is open already"):
        plan_renewal(belts, by=cast.owner, at=NOW)
    assert Job.objects.count() == 1


@pytest.mark.parametrize("longer", [{"runs": 11, "months": 6}, {"runs": 10, "months": 7}, {"runs": 10}, {}])
def test_that_it_lasts_longer_is_the_owners_alone_to_say(cast, belts, longer):
    hours = {"minutes": 60, "run_minutes": 20}
    set_life(belts, since=NOW, by=cast.helper, at=NOW, runs=10, months=6)
    with pytest.raises(Refused, match="Only the owner says that Belts lasts longer"):
        set_life(belts, since=NOW, by=cast.helper, at=NOW, **longer)
    set_life(belts, since=NOW, by=cast.helper, at=NOW, runs=10, months=6, **hours)
    set_life(belts, since=NOW, by=cast.helper, at=NOW, runs=9, months=6, **hours)
    set_life(belts, since=NOW, by=cast.owner, at=NOW, **longer)


@pytest.mark.parametrize(("meaning", "day", "longer"), [
    ("until", date(2028, 5, 1), False),
    ("until", date(2028, 5, 2), True),
    ("until", date(2028, 4, 30), False),
    ("made", date(2026, 5, 1), True),  # nothing ends them any more
])  # fmt: skip
def test_tyres_last_longer_by_a_later_day_or_by_none(meaning, day, longer):
    was = GearItem("tyres", printed=Printed(date(2028, 5, 1), "day"), meaning="until")
    now = GearItem("tyres", printed=Printed(day, "day"), meaning=meaning)
    assert lasts_longer(was, now, NOW.date()) is longer
