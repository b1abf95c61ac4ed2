"""What went into cars and jobs, on moves small enough to add up by hand."""

from collections import Counter
from datetime import datetime

import pytest

from builds.money.engine import Cost, Moved, event_of, into_cars, into_jobs, price

HERON, BADGER = 1, 2
NUT, HUB = 10, 11
JOB = 100


def fit(part, quantity, car, job=None):
    return Moved(part, "fit", quantity, "bench", None, "car", car, job, car if job else None)


def off(part, quantity, car, verb="take_off", target="bench", job=None):
    return Moved(part, verb, quantity, "car", car, target, None, job, HERON if job else None)


def scrap(part, quantity, source="bench", car=None, job=None):
    return Moved(part, "scrap", quantity, source, car, "scrap", None, job, HERON if job else None)


@pytest.mark.parametrize(
    ("moves", "cars"),
    [
        ([fit(NUT, 4, HERON)], {(HERON, NUT): 4}),
        ([fit(NUT, 4, HERON), fit(NUT, 2, HERON)], {(HERON, NUT): 6}),
        # Robbed: what comes off one car and goes on another counts there, and there alone.
        (
            [fit(HUB, 1, BADGER), off(HUB, 1, BADGER, "pull", job=JOB), fit(HUB, 1, HERON, JOB)],
            {(BADGER, HUB): 0, (HERON, HUB): 1},
        ),
        # Worn out on the car: it was spent.
        ([fit(NUT, 4, HERON), off(NUT, 3, HERON, target="scrap")], {(HERON, NUT): 4}),
        ([fit(NUT, 4, HERON), scrap(NUT, 3, "car", HERON)], {(HERON, NUT): 4}),
        ([fit(NUT, 4, HERON), off(NUT, 3, HERON)], {(HERON, NUT): 1}),
        # Used up for a job without ever going on.
        ([scrap(NUT, 5, job=JOB)], {(HERON, NUT): 5}),
        ([scrap(NUT, 5)], {}),
    ],
)
def test_what_went_into_each_car(moves, cars):
    assert dict(into_cars(moves)) == cars


def test_what_went_into_each_job():
    moves = [
        fit(NUT, 4, HERON, JOB),
        off(HUB, 1, HERON, job=JOB),
        scrap(NUT, 2, job=JOB),
        scrap(NUT, 1, "car", HERON, job=JOB),
        fit(NUT, 9, HERON),
    ]
    assert into_jobs(moves) == Counter({(JOB, NUT): 6})


@pytest.mark.parametrize(
    ("each", "quantity", "cost"),
    [
        (650, 4, Cost(2600)),
        (0, 4, Cost(0)),
        (None, 4, Cost(0, 1)),
        (None, 0, Cost()),
        (2, 0, Cost()),
    ],
)
def test_the_price_of_so_many(each, quantity, cost):
    assert price(each, quantity) == cost


def test_a_sum_keeps_count_of_what_has_no_price():
    assert Cost(100, 1) + Cost(5, 2) == Cost(105, 3)


@pytest.mark.parametrize(("day", "event"), [(1, 0), (9, 0), (10, 1), (19, 1), (20, None), (25, None)])
def test_work_is_for_the_first_event_to_end_after_it(day, event):
    ends = [datetime(2027, 3, 10), datetime(2027, 3, 20)]
    assert event_of(datetime(2027, 3, day), ends) == event
