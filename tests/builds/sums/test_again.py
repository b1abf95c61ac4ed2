"""A kept sum meets what was read since: worked out again, or void, and never done twice."""

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from builds.steps.actions import jobs, steps
from builds.sums.pages.job_sums import sums_of_jobs
from builds.sums.pages.kept import kept_rows
from tests.builds.readings.reading_kit import take
from tests.builds.sums.test_on_jobs import CORNERS, PERCH
from tests.factories import VehicleFactory
from tests.pages import words

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("now")]
SPRINGS = {"kinds": ["spring_change"], "systems": ["suspension"]}
TURNS = "Front left perch, turns, down above 0"


@pytest.fixture
def heron(cast):
    return VehicleFactory(garage=cast.garage, name="Heron")


@pytest.fixture
def shop(cast, heron, clock):
    return Shop(cast.owner, heron, clock)


class Shop:
    def __init__(self, by, car, clock):
        self.by, self.car, self.clock = by, car, clock

    def job(self, title, **more):
        return jobs.add(self.car, by=self.by, at=self.clock.at, title=title, work=(30, 60, 90), **more)

    def start(self, job):
        self.clock.forward(minutes=10)
        steps.start(job, by=self.by, at=self.clock.at)
        self.clock.forward(minutes=10)

    def do(self, job):
        self.start(job)
        steps.finish(job, by=self.by, at=self.clock.at)
        self.clock.forward(minutes=10)

    def read(self, kind, amount, **more):
        take(self.car, kind, self.by, at=self.clock.at, amount=amount, **more)
        self.clock.forward(minutes=1)

    def told(self, job, name):
        return next(one for one in sums_of_jobs([job], self.clock.at)[job.pk] if one.name == name)

    def kept(self, name):
        return next(row for row in kept_rows(self.car, self.clock.at) if row.kept.name == name)


def test_in_the_order_of_the_recipe_the_weighing_job_says_the_turns_of_the_newest_weights(owner, heron, shop):
    height = shop.job("Set ride height", measures=["ride_height"], **SPRINGS)
    weigh = shop.job("Weigh and set the cross weight", measures=["ride_height", "corner_weights"], **SPRINGS)
    owner.press(f"/sums/perch-turns/keep/{heron.pk}/", PERCH)
    shop.do(height)
    told = shop.told(weigh, "perch-turns")
    assert "“Set ride height” was finished" in told.void and not told.checks
    body = words(owner.get(f"/sums/perch-turns/?car={heron.pk}").content.decode())
    assert "no longer holds" not in body and "wheel rate, front" in body
    shop.start(weigh)
    shop.read("corner_weights", 300_000, last_of=weigh)
    told = shop.told(weigh, "perch-turns")
    assert dict(told.checks)[TURNS] == "0, leave it" and not told.void
    steps.finish(weigh, by=shop.by, at=shop.clock.at)
    assert dict(shop.told(weigh, "perch-turns").checks)[TURNS] == "0, leave it"
    assert not shop.kept("perch-turns").done


def test_where_nothing_was_read_since_no_figures_are_and_then_only_those_that_it_asks(owner, heron, shop):
    weigh = shop.job("Weigh and set the cross weight", measures=["corner_weights"], **SPRINGS)
    owner.press(f"/sums/perch-turns/keep/{heron.pk}/", PERCH)
    shop.clock.forward(minutes=10)
    tables = []
    for _ in range(2):
        with CaptureQueriesContext(connection) as asked:
            shop.told(weigh, "perch-turns")
        read = " ".join(query["sql"] for query in asked)
        tables.append({name for name in ("readingvalue", "ownkind") if f'FROM "builds_{name}"' in read})
        shop.read("corner_weights", 300_000)
    assert tables == [set(), {"readingvalue"}]


def test_turned_perches_are_the_work_that_it_plans_and_softer_springs_are_not(owner, heron, shop):
    owner.press(f"/sums/perch-turns/keep/{heron.pk}/", PERCH)
    shop.do(shop.job("Turn the perches", **SPRINGS))
    row = shop.kept("perch-turns")
    assert row.done.startswith("“Turn the perches” did it") and not row.void
    shop.do(shop.job("Softer springs", **SPRINGS))
    assert shop.kept("perch-turns").void.startswith("Void: “Softer springs” was finished")
    owner.press(f"/sums/perch-turns/keep/{heron.pk}/", PERCH)
    shop.do(shop.job("Stiffer springs", **SPRINGS))
    row = shop.kept("perch-turns")
    assert row.void.startswith("Void: “Stiffer springs” was finished") and not row.done
    body = words(owner.get(f"/sums/perch-turns/?car={heron.pk}").content.decode())
    assert "Wheel rate, front, 35 N/mm, no longer holds" in body


def test_what_was_put_in_is_not_put_in_once_more(owner, heron, shop):
    put = shop.job("Put the ballast in", kinds=["mass_moved"], systems=["seat"])
    weigh = shop.job("Weigh it", measures=["corner_weights"], systems=["suspension"])
    typed = CORNERS | {"rate_front": "35", "rate_rear": "30", "masses": "ballast 60 kg at 1350; -360"}
    owner.press(f"/sums/masses/keep/{heron.pk}/", typed)
    shop.clock.forward(minutes=10)
    shop.read("corner_weights", 300_000)
    assert dict(shop.told(weigh, "masses").checks)["All together, after"] == "1260 kg"
    assert "again" in shop.told(weigh, "masses").kept
    shop.do(put)
    shop.read("corner_weights", 315_000)
    told = shop.told(weigh, "masses")
    assert dict(told.checks)["All together, after"] == "1260 kg" and "again" not in told.kept


def test_newer_weights_that_no_perch_puts_right_leave_no_older_turns_standing(owner, heron, shop):
    weigh = shop.job("Weigh it", measures=["corner_weights"], systems=["suspension"])
    soft = dict.fromkeys(("fl", "fr", "rl", "rr"), "300") | {"cross": "52", "rate_front": "5", "rate_rear": "5"}
    owner.press(f"/sums/perch-turns/keep/{heron.pk}/", PERCH | soft)
    assert dict(shop.told(weigh, "perch-turns").checks)[TURNS] == "-42.29, 42.3 turns up"
    shop.clock.forward(minutes=10)
    shop.read("corner_weights", 700_000)
    told = shop.told(weigh, "perch-turns")
    assert told.void.startswith("From what was read ") and "no perch has as much" in told.void and not told.checks


def test_a_track_that_was_read_brings_no_older_strings_back(owner, heron, shop):
    edges = {f"{corner}_{end}": "151" for corner in ("fl", "fr", "rl", "rr") for end in ("front", "rear")}
    size = {"across": "470", "track_front": "1475", "track_rear": "1480"}
    owner.press(f"/sums/string-box/keep/{heron.pk}/", edges | size)
    toe = shop.job("Read toe", measures=["toe_front"], systems=["suspension"])
    shop.do(shop.job("Set toe", kinds=["jam_nut"], systems=["steering"]))
    shop.read("track_width", 1_480_000)
    assert "“Set toe” was finished" in shop.told(toe, "string-box").void


def test_a_dimension_that_work_changed_takes_the_sum_along(owner, heron, shop):
    typed = {"gears": "3.36 2.09 1.47", "final": "4.1", "most": "7000", "tyre": "300"}
    owner.press(f"/sums/gearing/keep/{heron.pk}/", typed)
    shop.do(shop.job("Taller tyres", kinds=["tyre_or_pressure"], systems=["wheels"]))
    assert shop.kept("gearing").void.startswith("Void: “Taller tyres” was finished")
