"""What the order of work of a car is drawn from is read once a write, and only as far as something leads to it."""

from itertools import pairwise

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from builds.readings.actions import remeasure
from builds.readings.facts.work_ahead import work_ahead
from tests.factories import NOW, EntryFactory, EventFactory, JobFactory, LinkFactory, VehicleFactory

pytestmark = [pytest.mark.once, pytest.mark.usefixtures("now")]


def asked(act):
    with CaptureQueriesContext(connection) as queries:
        act()
    return [query["sql"] for query in queries if "SAVEPOINT" not in query["sql"]]


@pytest.fixture
def car(cast):
    return VehicleFactory(garage=cast.garage, name="Heron")


def chain(*jobs):
    for before, after in pairwise(jobs):
        LinkFactory(before=before, after=after)


def test_the_order_runs_on_through_work_that_is_over_and_other_cars_but_not_back_into_what_was(cast, car):
    old, older, over, far = (JobFactory(vehicle=car, state="done", finished_at=NOW) for _ in range(4))
    first, last = JobFactory(vehicle=car), JobFactory(vehicle=car)
    other = JobFactory(vehicle=VehicleFactory(garage=cast.garage))
    chain(older, old, first, over, far, other, last)
    links = [(first, over), (over, far), (far, other), (other, last)]
    assert set(work_ahead(car, NOW).links) == {(before.pk, after.pk) for before, after in links}


def test_a_write_on_a_car_with_one_job_asks_of_no_links_but_those_drawn_before(cast, car):
    JobFactory(vehicle=car, kinds=["joint_opened"])
    sql = asked(lambda: remeasure.settle(car, by=cast.owner, at=NOW))
    assert len(sql) == 7
    assert sum('FROM "builds_link"' in query for query in sql) == 1


def test_a_write_among_more_work_reads_it_once(cast, car):
    chain(*(JobFactory(vehicle=car, kinds=["joint_opened"]) for _ in range(3)))
    sql = asked(lambda: remeasure.settle(car, by=cast.owner, at=NOW))
    assert len(sql) == 9


def test_events_are_asked_of_only_where_somebody_put_wanted_work_off(cast, car):
    EntryFactory(event=EventFactory(garage=cast.garage), vehicle=car)
    JobFactory(vehicle=car)
    assert not any("garage_entry" in query for query in asked(lambda: work_ahead(car, NOW)))
    later = JobFactory(vehicle=car, rank="wanted", earliest_at=car.entries.get().event.due_at)
    assert later.pk not in work_ahead(car, NOW).home
