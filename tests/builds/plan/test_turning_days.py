"""Work over the days on which calendars and clocks turn: year's end, the leap day, both changes of the clock.

Days and hours by the IANA time zone database (file europe: Lisbon goes to summer time on the last Sunday of March at
01:00 and back on the last of October at 02:00); 2028 is divisible by four.
"""

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from builds.plan.engine.ids import id_of
from tests.builds.plan.plan_kit import enter, evenings, job, main, planned
from tests.factories import LinkFactory, VehicleFactory
from tests.pages import words

pytestmark = [pytest.mark.django_db, pytest.mark.once]
LISBON = ZoneInfo("Europe/Lisbon")
CURES = 14 * 60  # minutes, of time that passes whatever clocks say

# The evening before, the evening on which the second job is done, and the hours that passed between 18:00 and 18:00.
TURNS = {
    "year's end": (datetime(2026, 12, 31, 12, tzinfo=UTC), "Thu 18:00", "Fri 18:00", datetime(2027, 1, 1, 18), 24),
    "leap day": (datetime(2028, 2, 28, 12, tzinfo=UTC), "Mon 18:00", "Tue 18:00", datetime(2028, 2, 29, 18), 24),
    "after the leap day": (
        datetime(2028, 2, 29, 12, tzinfo=UTC),
        "Tue 18:00",
        "Wed 18:00",
        datetime(2028, 3, 1, 18),
        24,
    ),
    "no leap year": (datetime(2027, 2, 28, 12, tzinfo=UTC), "Sun 18:00", "Mon 18:00", datetime(2027, 3, 1, 18), 24),
    "to summer time": (datetime(2027, 3, 27, 12, tzinfo=UTC), "Sat 18:00", "Sun 18:00", datetime(2027, 3, 28, 18), 23),
    "from summer time": (
        datetime(2027, 10, 30, 12, tzinfo=UTC),
        "Sat 18:00",
        "Sun 18:00",
        datetime(2027, 10, 31, 18),
        25,
    ),
}


@pytest.mark.parametrize("turn", TURNS)
def test_an_evening_is_an_evening_on_either_side_and_a_cure_runs_through(cast, owner, clock, turn):
    at, first, second, local, hours = TURNS[turn]
    clock.at = at
    cast.garage.time_zone = "Europe/Lisbon"
    cast.garage.save()
    evenings(cast.owner)
    car = VehicleFactory(garage=cast.garage, name="Heron")
    made = {"made_at": at, "low_minutes": 60, "high_minutes": 60}
    primed, refit = job(car, cast, "Prime the arm", **made), job(car, cast, "Refit the arm", **made)
    LinkFactory(before=primed, after=refit, wait_minutes=CURES, why="the primer cures")
    enter(car, leaves=local.replace(hour=20, tzinfo=LISBON))
    plan = planned(cast.garage, at=at)
    starts = [plan.clock.moment(plan.placed[id_of("job", done.pk)].start) for done in (primed, refit)]
    assert [plan.clock.said(start) for start in starts] == [first, second]
    assert starts[1] == local.replace(tzinfo=LISBON)
    assert starts[1].astimezone(UTC) - starts[0].astimezone(UTC) == timedelta(hours=hours)
    assert f"{second[:3]} {local.day} {local:%b}" in main(owner)
    for path in ("/", f"/cars/{car.pk}/", f"/jobs/{refit.pk}/", "/events/", "/shop/", f"/people/{cast.owner.pk}/"):
        assert owner.get(path).status_code == 200, path
    clock.at = local.replace(hour=19, tzinfo=LISBON)
    assert "Refit the arm" in words(owner.get("/").content.decode())
