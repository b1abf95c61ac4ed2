"""Pages of what it cost: the garage's currency, budgets, and nothing of it for anybody else."""

from datetime import timedelta

import pytest

from builds.money.actions import set_budget
from builds.money.models import Budget
from builds.money.pages import ROWS
from builds.needs.actions import needs
from builds.work.models.job import Job
from garage.actions import shares
from garage.models import Garage
from tests.builds.money.money_kit import Bench
from tests.conftest import queries
from tests.factories import NOW, EntryFactory, EventFactory
from tests.pages import words

pytestmark = pytest.mark.usefixtures("now")
DAY = timedelta(days=1)


@pytest.fixture
def bench(cast):
    return Bench(cast)


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


def test_what_went_into_a_car_is_paged_and_counted_whole(bench, owner):
    for number in range(ROWS + 1):
        bench.fit(bench.bought(f"Clamp {number:02}", 100, 1), 1, job=bench.work(bench.heron, f"Clamp job {number:02}"))
    path = f"/cars/{bench.heron.pk}/money/"
    first, second, jobs = (words(owner.get(path + which).content.decode()) for which in ("", "?parts=2", "?jobs=2"))
    assert "31.00 EUR" in first and "31.00 EUR" in second  # the sums are those of all
    assert "Clamp 29" in first and "Clamp 30" not in first.replace("Clamp job 30", "")
    assert "Clamp 30" in second and "Clamp 29" not in second.replace("Clamp job 29", "")
    assert "Clamp job 30" in jobs and "Clamp job 29" not in jobs
    assert "Clamp 29" in words(owner.get(path + "?parts=x").content.decode())


def test_a_budget_is_set_kept_to_gone_over_and_taken_away(bench, owner):
    bench.fit(bench.nut, 4)
    day = (NOW + DAY).date()
    needs.add(bench.job, at=NOW, what="Rack", cost_minor=5000, expected_on=day)
    path = f"/cars/{bench.heron.pk}/money/"
    assert owner.press(path, {"minor": "100,00"}).status_code == 303
    assert "Left of it 24.00 EUR" in words(owner.get(path).content.decode())  # 100 - 26 - 50
    owner.press(path, {"minor": "60"})
    assert "Over the budget by 16.00 EUR" in words(owner.get(path).content.decode())
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
            assert "Only the owner of Quayside Lock-up sees what things cost." in (answer.content.decode())
        assert cast.client(who).press(paths[1], {"minor": "1"}).status_code == 403
        for path in (f"/cars/{bench.heron.pk}/?tab=papers", f"/events/{event.pk}/", "/cars/"):
            assert "/money/" not in cast.client(who).get(path).content.decode()
    assert cast.client("stranger").get(paths[1]).status_code == 404


@pytest.mark.parametrize("who", ["helper", "viewer"])
def test_no_other_page_tells_others_what_things_cost(bench, owner, cast, who):
    day = (NOW + DAY).date()
    needs.add(bench.job, at=NOW, what="Rack", cost_minor=30000, expected_on=day)
    needs.add(bench.job, at=NOW, what="Hub nut", part=bench.nut, quantity=40)
    paths = [
        *(f"/parts/{bench.nut.pk}/", f"/parts/{bench.nut.pk}/edit/", f"/jobs/{bench.job.pk}/"),
        *("/wants/", "/shelf/", "/pull/", f"/cars/{bench.heron.pk}/?tab=papers", "/"),
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
        (f"/cars/{bench.heron.pk}/?tab=papers", f"/cars/{bench.heron.pk}/money/"),
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
        needs.got(needs.add(job, at=NOW, what="Seal", cost_minor=1), by=bench.cast.owner, at=NOW)
    EventFactory.create_batch(5, garage=bench.cast.garage)
    assert [queries(owner, path) for path in paths] == one
