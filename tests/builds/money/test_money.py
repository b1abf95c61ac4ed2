"""What it cost: each sum against a case worked by hand; for the owner alone."""

from datetime import timedelta

import pytest

from builds.needs.actions import needs
from builds.shelf.actions import shelf
from builds.work.models.job import Job
from tests.builds.money.money_kit import Bench
from tests.factories import NOW, EntryFactory, EventFactory

pytestmark = pytest.mark.usefixtures("now")
DAY = timedelta(days=1)


@pytest.fixture
def bench(cast):
    return Bench(cast)


def test_nothing_costs_nothing(bench):
    assert bench.cost(bench.heron) == bench.cost(bench.job, "job") == (0, 0)


def test_parts_fitted_to_a_car_for_a_job_and_for_none(bench):
    bench.fit(bench.nut, 4, job=bench.job)  # 4 × 6.50
    bench.fit(bench.hub, 1)  # 80.00
    bench.fit(bench.clip, 3)  # without a price
    assert bench.cost(bench.heron) == (2600 + 8000, 1)
    assert bench.cost(bench.job, "job") == (2600, 0)
    assert bench.cost(bench.badger) == (0, 0)


def test_the_undo_of_a_move_lowers_the_cost_again(bench):
    bench.fit(bench.nut, 2, job=bench.job)
    mistake = bench.fit(bench.nut, 4, job=bench.job)
    assert bench.cost(bench.heron) == bench.cost(bench.job, "job") == (3900, 0)
    shelf.undo(mistake, by=bench.cast.owner, at=NOW)
    assert bench.cost(bench.heron) == bench.cost(bench.job, "job") == (1300, 0)


def test_a_robbed_part_costs_the_car_that_has_it(bench):
    bench.fit(bench.hub, 1, car=bench.badger)
    spot = bench.money().garage.places.get(vehicle=bench.badger)
    bench.move(bench.hub, "pull", 1, source=spot, job=bench.job)
    assert (bench.cost(bench.badger), bench.cost(bench.heron)) == ((0, 0), (0, 0))
    benched = bench.money().garage.places.get(kind="bench")
    bench.move(bench.hub, "fit", 1, source=benched, car=bench.heron, job=bench.job)
    assert (bench.cost(bench.badger), bench.cost(bench.heron)) == ((0, 0), (8000, 0))


def test_what_is_worn_out_on_a_car_stays_spent_what_comes_off_whole_does_not(bench):
    bench.fit(bench.nut, 4)
    spot = bench.money().garage.places.get(vehicle=bench.heron)
    bench.move(bench.nut, "take_off", 1, source=spot, target=bench.shelf)
    bench.move(bench.nut, "scrap", 2, source=spot)
    assert bench.cost(bench.heron) == (1950, 0)


def test_used_parts_at_nothing_when_the_owner_says_so(bench, owner):
    bench.fit(bench.nut, 1, job=bench.job)
    bench.fit(bench.hub, 1, job=bench.job)
    assert bench.cost(bench.heron) == (8650, 0)
    assert owner.press("/money/used/", {"count": "no"}).status_code == 303
    assert bench.cost(bench.heron) == bench.cost(bench.job, "job") == (650, 0)
    owner.press("/money/used/", {"count": "yes"})
    assert bench.cost(bench.heron) == (8650, 0)


def test_what_is_bought_for_a_job_without_a_shelf(bench):
    there = needs.add(bench.job, at=NOW, what="Windscreen", cost_minor=21000)
    needs.add(bench.job, at=NOW, what="Wiper", cost_minor=900)
    free = needs.add(bench.job, at=NOW, what="Seal")
    needs.got(there, by=bench.cast.owner, at=NOW)
    needs.got(free, by=bench.cast.owner, at=NOW)
    assert bench.cost(bench.job, "job") == bench.cost(bench.heron) == (21000, 1)


def test_a_part_of_the_shelf_is_not_counted_twice(bench):
    need = needs.add(bench.job, at=NOW, what="Hub nut", part=bench.nut, quantity=2, cost_minor=1300)
    bench.fit(bench.nut, 2, job=bench.job)
    need.refresh_from_db()
    assert need.got_at == NOW
    assert bench.cost(bench.heron) == (1300, 0)


def test_ordered_is_what_has_a_day_and_is_not_here(bench):
    day = (NOW + 3 * DAY).date()
    needs.add(bench.job, at=NOW, what="Rack", cost_minor=30000, expected_on=day)
    needs.add(bench.job, at=NOW, what="Nuts", part=bench.nut, quantity=3, expected_on=day)
    needs.add(bench.job, at=NOW, what="Clips", part=bench.clip, quantity=3, expected_on=day)
    needs.add(bench.job, at=NOW, what="Some day", cost_minor=77)
    here = needs.add(bench.job, at=NOW, what="Here", cost_minor=55, expected_on=day)
    needs.got(here, by=bench.cast.owner, at=NOW)
    money = bench.money()
    found = money.ordered_for(money.jobs_on(bench.heron))
    assert (found.minor, found.unpriced) == (30000 + 3 * 650, 1)
    Job.objects.filter(pk=bench.job.pk).update(state="dropped")
    assert bench.money().ordered_for(bench.money().jobs_on(bench.heron)).minor == 0


def test_a_job_counts_for_the_first_event_after_it_and_for_no_other(bench):
    first = EventFactory(garage=bench.cast.garage, gates_at=NOW + 3 * DAY)
    second = EventFactory(garage=bench.cast.garage, gates_at=NOW + 10 * DAY)
    for event in (first, second):
        EntryFactory(event=event, vehicle=bench.heron)
    early, late = bench.job, bench.work(bench.heron, "Later")
    other = bench.work(bench.badger, "Of a car that is not entered")
    bench.fit(bench.nut, 1, job=early)
    bench.fit(bench.nut, 2, job=late)
    bench.fit(bench.nut, 4, car=bench.badger, job=other)
    Job.objects.filter(pk=early.pk).update(state="done", finished_at=NOW + DAY)
    Job.objects.filter(pk=late.pk).update(state="done", finished_at=NOW + 5 * DAY)
    assert bench.cost(first, "event") == (650, 0)
    assert bench.cost(second, "event") == (1300, 0)
    Job.objects.filter(pk=late.pk).update(state="open", finished_at=None)
    assert bench.money().of_event(first).minor == 1950
    assert bench.money(at=NOW + 6 * DAY).of_event(second).minor == 1300
