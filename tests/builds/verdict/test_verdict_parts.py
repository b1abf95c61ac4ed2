"""What the verdict is told of parts: never fitted, or fitted though they do not fit."""

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from builds.verdict.facts.parts import parts_facts
from builds.verdict.facts.verdict import verdict_of
from builds.verdict.pages import reason_url
from parts.actions import stock
from parts.actions.places import house_place
from parts.models import Move
from tests.builds.verdict.fit_kit import FINE, INCH, make_bench
from tests.factories import NOW, JobFactory, NeedFactory, VehicleFactory

pytestmark = pytest.mark.usefixtures("now")


@pytest.fixture
def bench(cast):
    return make_bench(cast)


def facts(cast, *cars):
    with CaptureQueriesContext(connection) as found:
        told = parts_facts(cast.garage, list(cars), NOW, {})
    return {car: [(fact.title, fact.what, fact.state) for fact in told[car.pk]] for car in cars}, len(found)


def test_every_car_has_its_parts_on_record(cast, bench):
    assert facts(cast, bench.car)[0] == {bench.car: []}


@pytest.mark.parametrize("state", ["done", "signed"])
def test_a_finished_job_whose_need_was_never_got(cast, bench, state):
    for job, rank, systems in [
        (bench.safety, "safety", ["steering"]),
        (bench.plain, "wanted", ["body"]),
    ]:
        job.state, job.rank, job.systems = state, rank, systems
        job.save()
        NeedFactory(job=job, what="split pin")
        NeedFactory(job=job, what="nut", got_at=NOW)
    assert facts(cast, bench.car)[0][bench.car] == [("Refit the arm", "split pin", "unfitted")]


@pytest.mark.parametrize("state", ["open", "in_hand", "dropped"])
def test_an_open_or_dropped_job_lacks_nothing_yet(cast, bench, state):
    bench.safety.state = state
    bench.safety.save()
    NeedFactory(job=bench.safety, what="split pin")
    assert facts(cast, bench.car)[0][bench.car] == []


def test_a_lowered_rank_does_not_hide_a_missing_pin(cast, bench):
    bench.safety.state, bench.safety.rank = "done", "wanted"
    bench.safety.save()
    NeedFactory(job=bench.safety, what="split pin")
    assert facts(cast, bench.car)[0][bench.car] == [("Refit the arm", "split pin", "unfitted")]


def test_what_went_on_and_does_not_fit_stands_until_it_is_off(owner, cast, bench):
    part = bench.nut(INCH, bench.plain)
    bench.fit(owner, part, bench.plain, fit_because="for now")
    assert facts(cast, bench.car)[0][bench.car] == [("Fit the shelf", "Nut", "misfit")]
    move = Move.objects.get(verb="fit")
    owner.press(f"/moves/{move.pk}/undo/")
    assert facts(cast, bench.car)[0][bench.car] == []


def test_the_verdict_says_both_and_leads_to_the_job(owner, cast, bench):
    part = bench.nut(INCH, bench.plain)
    bench.fit(owner, part, bench.plain, fit_because="for now")
    NeedFactory(job=bench.safety, what="split pin")
    bench.safety.state = "signed"
    bench.safety.save()
    found = {reason.sentence: reason for reason in verdict_of(bench.car, NOW).reasons}
    for job, sentence in [
        (bench.safety, "“Refit the arm” is done, but never fitted: split pin."),
        (bench.plain, "“Fit the shelf” went on with Nut, which does not fit."),
    ]:
        assert reason_url(found[sentence]) == f"/jobs/{job.pk}/"
    assert "Got it" in owner.get(f"/jobs/{bench.safety.pk}/").content.decode()


def test_taken_off_again_it_no_longer_stands(owner, cast, bench):
    part = bench.nut(INCH, bench.plain)
    bench.fit(owner, part, bench.plain, fit_because="for now")
    on_car = Move.objects.get(verb="fit").target
    stock.move(part, "take_off", 1, on_car, house_place(cast.garage, "scrap"), by=cast.owner, at=NOW)
    assert facts(cast, bench.car)[0][bench.car] == []


def test_the_same_queries_for_one_car_and_for_many(owner, cast, bench):
    part = bench.nut(INCH, bench.plain)
    bench.fit(owner, part, bench.plain, fit_because="for now")
    _, one = facts(cast, bench.car)
    others = [VehicleFactory(garage=cast.garage) for _ in range(8)]
    for car in others:
        NeedFactory(job=JobFactory(vehicle=car, state="done", rank="needed"), fit=FINE)
    told, many = facts(cast, bench.car, *others)
    assert one == many == 2
    assert all(told[car][0][2] == "unfitted" for car in others)
