"""What it cost: each sum against a case worked by hand; for the owner alone."""

from datetime import timedelta

import pytest

from builds.actions import needs, shelf
from builds.actions.budgets import set_budget
from builds.loaders.money import load_money
from builds.models import Budget, Job
from garage.models import Garage
from tests.conftest import queries
from tests.factories import NOW, EntryFactory, EventFactory, JobFactory, VehicleFactory
from tests.parts.factories import PartFactory, PlaceFactory

pytestmark = pytest.mark.usefixtures("now")
DAY = timedelta(days=1)


class Bench:
    """Heron and Badger, a shelf, and parts bought for known prices."""

    def __init__(self, cast):
        self.cast = cast
        self.heron = VehicleFactory(garage=cast.garage, name="Heron")
        self.badger = VehicleFactory(garage=cast.garage, name="Badger")
        self.shelf = PlaceFactory(garage=cast.garage)
        self.job = self.work(self.heron, "Front end")
        self.nut = self.bought("Hub nut", 650, 10)
        self.hub = self.bought("Front hub", 8000, 2, condition="good")
        self.clip = self.bought("Hose clip", None, 10)

    def work(self, car, title):
        return JobFactory(vehicle=car, title=title, made_by=self.cast.owner)

    def bought(self, name, each, many, condition="new"):
        part = PartFactory(garage=self.cast.garage, name=name, cost_minor=each, condition=condition)
        self.move(part, "receive", many, target=self.shelf)
        return part

    def move(self, part, verb, quantity, **more):
        return shelf.carry_out(part, verb, quantity=quantity, by=self.cast.owner, at=NOW, **more)

    def fit(self, part, quantity, car=None, job=None):
        return self.move(part, "fit", quantity, source=self.shelf, car=car or self.heron, job=job)

    def money(self, at=NOW):
        return load_money(Garage.objects.get(pk=self.cast.garage.pk), at)

    def cost(self, thing, of="car"):
        cost = getattr(self.money(), f"of_{of}")(thing)
        return cost.minor, cost.unpriced


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
    needs.got(there, at=NOW)
    needs.got(free, at=NOW)
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
    needs.got(here, at=NOW)
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


def test_pages_say_the_sums_in_the_garages_currency(bench, owner):
    Garage.objects.update(currency="NOK")
    event = EntryFactory(event__garage=bench.cast.garage, vehicle=bench.heron).event
    bench.fit(bench.nut, 4, job=bench.job)
    bench.fit(bench.clip, 1)
    body = owner.get(f"/cars/{bench.heron.pk}/money/").content.decode()
    assert "26.00 NOK" in body and "and 1 without a price" in body
    assert "4 pieces" in body and "6.50 NOK" in body and "Front end" in body
    assert "26.00 NOK" in owner.get("/money/").content.decode()
    body = owner.get(f"/events/{event.pk}/money/").content.decode()
    assert "Heron: 26.00 NOK" in body


def test_a_budget_is_set_kept_to_gone_over_and_taken_away(bench, owner):
    bench.fit(bench.nut, 4)
    day = (NOW + DAY).date()
    needs.add(bench.job, at=NOW, what="Rack", cost_minor=5000, expected_on=day)
    path = f"/cars/{bench.heron.pk}/money/"
    assert owner.press(path, {"minor": "100,00"}).status_code == 303
    body = owner.get(path).content.decode()
    assert 'Left of it</dt><dd class="figure">24.00 EUR' in body  # 100 - 26 - 50
    owner.press(path, {"minor": "60"})
    assert 'Over the budget by</dt><dd class="figure">16.00 EUR' in owner.get(path).content.decode()
    assert Budget.objects.get().minor == 6000
    owner.press(path, {"minor": ""})
    assert not Budget.objects.exists()


@pytest.mark.parametrize("typed", ["-1", "NaN", "1e9", "1.234", "a" * 5000, "1\0"])
def test_what_is_no_budget_is_said_and_kept(bench, owner, typed):
    event = EventFactory(garage=bench.cast.garage)
    answer = owner.press(f"/events/{event.pk}/money/", {"minor": typed})
    assert answer.status_code == 422
    assert answer.context["form"].errors["minor"]
    assert not Budget.objects.exists()


def test_an_event_and_a_car_each_have_one(bench):
    event = EventFactory(garage=bench.cast.garage)
    set_budget(event, 100)
    set_budget(event, 200)
    set_budget(bench.heron, 300)
    money = bench.money()
    assert (money.budget(event), money.budget(bench.heron)) == (200, 300)


def test_nobody_else_sees_any_of_it(bench, cast):
    event = EventFactory(garage=cast.garage)
    paths = ["/money/", f"/cars/{bench.heron.pk}/money/", f"/events/{event.pk}/money/"]
    for who in ("helper", "viewer"):
        for path in paths:
            answer = cast.client(who).get(path)
            assert answer.status_code == 403
            assert "Only the owner of Quayside Lock-up sees what things cost." in (
                answer.content.decode()
            )
        assert cast.client(who).press(paths[1], {"minor": "1"}).status_code == 403
        for path in (f"/cars/{bench.heron.pk}/", f"/events/{event.pk}/", "/cars/"):
            assert "/money/" not in cast.client(who).get(path).content.decode()
    assert cast.client("stranger").get(paths[1]).status_code == 404


@pytest.mark.parametrize("who", ["helper", "viewer"])
def test_no_other_page_tells_others_what_things_cost(bench, owner, cast, who):
    day = (NOW + DAY).date()
    needs.add(bench.job, at=NOW, what="Rack", cost_minor=30000, expected_on=day)
    needs.add(bench.job, at=NOW, what="Hub nut", part=bench.nut, quantity=40)
    paths = [
        *(f"/parts/{bench.nut.pk}/", f"/parts/{bench.nut.pk}/edit/", f"/jobs/{bench.job.pk}/"),
        *("/wants/", "/shelf/", "/pull/", f"/cars/{bench.heron.pk}/", "/"),
    ]
    told = [path for path in paths if "EUR" in owner.get(path).content.decode()]
    assert told == [*paths[:3], "/wants/"]
    for path in paths:
        body = cast.client(who).get(path).content.decode()
        assert "EUR" not in body and "6.50" not in body and "no price" not in body, path


def test_a_helper_writes_a_part_and_a_need_but_not_their_cost(bench, helper):
    form = {"name": "Hub nut", "condition": "new", "unit": "piece", "cost_minor": "1"}
    assert helper.press(f"/parts/{bench.nut.pk}/edit/", form).status_code == 303
    bench.nut.refresh_from_db()
    assert bench.nut.cost_minor == 650
    need = needs.add(bench.job, at=NOW, what="Rack", cost_minor=30000)
    form = {"what": "Steering rack", "quantity": 1, "cost_minor": "1"}
    assert helper.press(f"/needs/{need.pk}/", form).status_code == 303
    need.refresh_from_db()
    assert (need.what, need.cost_minor) == ("Steering rack", 30000)


def test_a_shared_page_says_nothing_of_it(bench, owner, cast):
    from garage.actions import shares

    bench.fit(bench.nut, 4, job=bench.job)
    set_budget(bench.heron, 12345)
    _, token = shares.make(by=cast.owner, at=NOW, days=3, vehicle=bench.heron)
    answer = cast.client("nobody").get(f"/shared/{token}/")
    assert answer.status_code == 200
    body = answer.content.decode()
    assert "EUR" not in body and "123.45" not in body and "money" not in body


def test_the_cars_and_events_pages_lead_there(bench, owner):
    event = EventFactory(garage=bench.cast.garage)
    for path, wanted in (
        (f"/cars/{bench.heron.pk}/", f"/cars/{bench.heron.pk}/money/"),
        (f"/events/{event.pk}/", f"/events/{event.pk}/money/"),
        ("/cars/", "/money/"),
    ):
        assert f'href="{wanted}"' in owner.get(path).content.decode()


def test_markup_in_names_is_shown_as_typed(bench, owner):
    part = bench.bought("<b>nut</b>", 1, 1)
    bench.fit(part, 1, job=bench.job)
    Job.objects.update(title="<i>job</i>")
    body = owner.get(f"/cars/{bench.heron.pk}/money/").content.decode()
    assert "&lt;b&gt;nut" in body and "<b>nut" not in body and "<i>job" not in body


def test_as_many_queries_for_many_as_for_one(bench, owner):
    event = EntryFactory(event__garage=bench.cast.garage, vehicle=bench.heron).event
    paths = ["/money/", f"/cars/{bench.heron.pk}/money/", f"/events/{event.pk}/money/"]
    bench.fit(bench.nut, 1, job=bench.job)
    needs.add(bench.job, at=NOW, what="Rack", cost_minor=1, expected_on=NOW.date())
    one = [queries(owner, path) for path in paths]
    for number in range(12):
        job = bench.work(bench.heron, f"Job {number}")
        bench.fit(bench.bought(f"Part {number}", 5, 1), 1, job=job)
        needs.add(job, at=NOW, what="Rack", cost_minor=1, expected_on=NOW.date())
        needs.got(needs.add(job, at=NOW, what="Seal", cost_minor=1), at=NOW)
    EventFactory.create_batch(5, garage=bench.cast.garage)
    assert [queries(owner, path) for path in paths] == one
