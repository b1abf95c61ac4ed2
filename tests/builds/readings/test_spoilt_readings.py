"""What hands have spoilt is void at once, whatever became of their job; a look spoils nothing."""

from datetime import timedelta
from zoneinfo import ZoneInfo

import pytest

from builds.readings.engine.why_not import lapse_words
from builds.readings.facts.readings import readings_of
from builds.readings.pages.setup import setup_sheet
from builds.steps.actions import hold_points, jobs, steps
from tests.builds.readings.reading_kit import require, take, text, url
from tests.factories import NOW, HoldPointFactory, VehicleFactory

pytestmark = pytest.mark.django_db
HOUR = timedelta(hours=1)


@pytest.fixture
def car(cast, now):
    """Heron, its toe set at noon."""
    car = VehicleFactory(garage=cast.garage, name="Heron")
    require(car, cast.owner, "toe_front")
    take(car, "toe_front", cast.owner, at=NOW - 5 * HOUR)
    return car


@pytest.fixture
def rod(cast, car):
    fields = {"title": "New tie rods", "work": (30, 60, 90), "kinds": ["jam_nut"]}
    return jobs.add(car, by=cast.owner, at=NOW - 4 * HOUR, **fields)


def toe(car, at=NOW):
    line = readings_of(car.garage, [car], at)[car.pk].lines["toe_front"]
    return line.state, lapse_words(line, ZoneInfo(car.garage.time_zone), at)


@pytest.mark.parametrize("end", ["put down", "held", "dropped"])
def test_work_left_half_done_has_spoilt_it(cast, car, rod, owner, end):
    steps.start(rod, by=cast.helper, at=NOW - 3 * HOUR)
    assert toe(car) == ("void", "“New tie rods” has been in hand since Tue 2 Mar 14:00.")
    if end == "put down":
        steps.stop(rod, by=cast.helper, at=NOW - 2 * HOUR)
    elif end == "held":
        steps.hold(rod, by=cast.helper, at=NOW - 2 * HOUR, reason="no thread left")
    else:
        steps.drop(rod, by=cast.owner, at=NOW - 2 * HOUR, reason="no thread left")
    said = "“New tie rods” was worked on until Tue 2 Mar 15:00, and it has not been taken since."
    assert toe(car) == ("void", said)
    assert said in text(owner, url("reading_list", car))
    (kind,) = [kind for kind in setup_sheet(car, NOW).kinds if kind.key == "toe_front"]
    assert (kind.state, kind.words) == ("void", said)


@pytest.mark.parametrize("end", ["held", "released", "dropped"])
def test_work_finished_without_a_start_has_spoilt_it_though_its_point_was_never_signed(cast, car, rod, end):
    HoldPointFactory(job=rod)
    steps.finish(rod, by=cast.helper, at=NOW - 2 * HOUR)
    if end == "released":
        steps.release(rod, by=cast.helper, at=NOW - HOUR)
    elif end == "dropped":
        steps.drop(rod, by=cast.owner, at=NOW - HOUR, reason="other rods")
    assert toe(car) == ("void", "“New tie rods” was finished Tue 2 Mar 15:00, and it has not been taken since.")


def test_who_signs_the_point_afterwards_spoils_nothing(cast, car, rod):
    point = HoldPointFactory(job=rod)
    steps.finish(rod, by=cast.helper, at=NOW - 3 * HOUR)
    take(car, "toe_front", cast.owner, at=NOW - 2 * HOUR)
    assert toe(car) == ("stands", "")
    hold_points.sign(point, by=cast.owner, at=NOW - HOUR)
    rod.refresh_from_db()
    assert rod.state == "signed" and toe(car) == ("stands", "")


def test_work_that_ended_in_the_moment_it_was_taken_has_spoilt_it(cast, car, rod):
    """Nobody can tell which was first, and it is the oldest reading, before which nothing is looked for."""
    steps.finish(rod, by=cast.helper, at=NOW - 5 * HOUR)
    assert toe(car) == ("void", "“New tie rods” was finished Tue 2 Mar 12:00, and it has not been taken since.")


def test_a_crash_was_written_down_and_not_finished(cast, car):
    fields = {"title": "Hit the kerb", "work": (30, 60, 90), "kinds": ["crash"]}
    jobs.add(car, by=cast.owner, at=NOW - 2 * HOUR, **fields)
    assert toe(car) == ("void", "“Hit the kerb” was written down Tue 2 Mar 15:00, and it has not been taken since.")


def test_a_crash_has_spoilt_it_though_the_work_after_it_was_over_before_anybody_wrote_it_down(cast, car):
    fields = {"title": "Hit the kerb", "work": (30, 60, 90), "kinds": ["crash"]}
    job = jobs.add(car, by=cast.owner, at=NOW - 2 * HOUR, **fields)
    steps.finish(job, by=cast.owner, at=NOW - HOUR, moment=NOW - 8 * HOUR)
    assert toe(car) == ("void", "“Hit the kerb” was written down Tue 2 Mar 15:00, and it has not been taken since.")
