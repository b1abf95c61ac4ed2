"""A reading that is not as it must be says so at once, opens the job that mends it, and meets whoever signs."""

from datetime import timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from builds.jobs import actions as finishing
from builds.jobs.actions import Finish
from builds.readings.actions import readings
from builds.readings.actions.readings import Measured, TargetInput, Typed
from builds.readings.engine import READINGS
from builds.readings.engine.amiss import HURTS, SYSTEMS_READ
from builds.readings.facts.amiss import amiss_in
from builds.readings.facts.kinds import kind_of
from builds.readings.pages.amiss import amiss_said
from builds.steps.actions import jobs, steps
from builds.verdict.facts.verdict import verdict_of
from builds.work.models.job import MEASURE_AGAIN, Job
from garage.engine.systems import SYSTEMS
from tests.builds.readings.reading_kit import WHOLE, take
from tests.factories import NOW, JobFactory, VehicleFactory

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("now")]
HOUR = timedelta(hours=1)
BLEED = "Mend what failed: brake bleed and leak check"
TOE = "Set it within its limits: front toe"


@pytest.fixture
def car(cast):
    return VehicleFactory(garage=cast.garage, name="Heron")


def bleeding(car, cast, title="bleed brakes"):
    job = jobs.add(
        car, by=cast.owner, at=NOW, title=title, work=(30, 60, 90), systems=["brakes"],
        kinds=["hydraulics_opened"], kinds_likely=True, measures=["brake_bleed"],
    )  # fmt: skip
    steps.start(job, by=cast.helper, at=NOW)
    return job


def bled(cast, job, dry=0, firm=1):
    values = {"firm": Typed(firm, "passed"), "dry": Typed(dry, "passed" if dry else "failed")}
    values["fluid"] = Typed(None, "race fluid")
    return Measured(kind_of(cast.garage, "brake_bleed"), values, {"last_of": job, "instrument": "hose"})


def opened(car):
    return list(Job.objects.on(car).open().filter(title__in=[BLEED, TOE]))


def test_every_reading_that_is_of_a_system_is_one_and_of_one_there_is():
    assert set(SYSTEMS_READ) <= set(READINGS)
    assert set(READINGS) >= HURTS
    assert {system for systems in SYSTEMS_READ.values() for system in systems} <= set(SYSTEMS)
    # Weighed, fitted or written down: nothing that somebody mends.
    said_of_none = "driver_fit ballast_position cg_height routing printed_checklist"
    assert set(READINGS) - set(SYSTEMS_READ) == set(said_of_none.split())


def test_a_finish_with_a_check_that_failed_says_so_opens_its_mending_and_meets_the_signer(helper, owner, cast, car):
    job = bleeding(car, cast)
    sent = {"told": "on", "stood": "in_hand", "kinds": ["hydraulics_opened"], "brake_bleed-value_fluid": "race fluid"}
    checks = {"brake_bleed-value_firm": "1", "brake_bleed-value_dry": "0"}
    answer = helper.press(f"/jobs/{job.pk}/finish/", sent | checks)
    (mend,) = opened(car)
    (said,) = helper.get(answer["Location"]).context["messages"]
    assert str(said) == (
        f"“bleed brakes” is done. No leak under pedal pressure: failed. To be mended, for safety: “{BLEED}”."
    )
    assert said.level_tag == "error"
    assert (mend.rank, mend.systems, mend.measures, mend.found_in) == ("safety", ["brakes"], ["brake_bleed"], job)
    assert mend.kinds == ["hydraulics_opened"] and mend.kinds_likely
    assert verdict_of(car, NOW).do_not_drive
    for path in (f"/jobs/{job.pk}/", "/", f"/cars/{car.pk}/"):
        assert "No leak under pedal pressure: failed." in owner.get(path).content.decode(), path


def test_the_same_failing_again_asks_for_one_mending_and_its_own_finish_for_another(cast, car):
    job = bleeding(car, cast)
    finishing.finish(job, by=cast.helper, at=NOW + HOUR, kinds=["hydraulics_opened"], came=Finish((bled(cast, job),)))
    take_failed(cast, car, NOW + HOUR)
    (mend,) = opened(car)
    steps.start(mend, by=cast.helper, at=NOW + HOUR)
    came = Finish((bled(cast, mend),))
    finishing.finish(mend, by=cast.helper, at=NOW + 2 * HOUR, kinds=["hydraulics_opened"], came=came)
    (again,) = opened(car)
    assert again != mend and again.found_in == mend


def take_failed(cast, car, at, last_of=None):
    kind, values, told = bled(cast, last_of)
    return readings.take(car, kind, values, by=cast.owner, at=at, **told)


def test_what_failed_stays_to_be_mended_although_it_reads_well_later(cast, car):
    take_failed(cast, car, NOW)
    take(car, "brake_bleed", cast.owner, NOW + HOUR)
    assert [job.title for job in opened(car)] == [BLEED]


@pytest.mark.parametrize(("begun", "recipe", "gone"), [
    (False, "four-wheel-alignment", True), (True, "four-wheel-alignment", False),
    (False, MEASURE_AGAIN, False), (False, None, False),
])  # fmt: skip
def test_a_figure_out_of_its_limits_is_to_be_set_until_other_work_has_set_it(cast, car, begun, recipe, gone):
    """Who only reads it right has turned something, and not said what."""
    kind = kind_of(cast.garage, "toe_front")
    limits = {field.slug: TargetInput("between", 0, 200, "0", "0.2") for field in kind.figures}
    readings.set_targets(car, kind, limits)
    take(car, "toe_front", cast.owner, NOW, amount=200)
    assert opened(car) == []
    take(car, "toe_front", cast.owner, NOW + HOUR, amount=201)
    (setting,) = opened(car)
    assert (setting.title, setting.rank) == (TOE, "safety")
    if begun:
        steps.start(setting, by=cast.helper, at=NOW + HOUR)
    work = JobFactory(vehicle=car, recipe=recipe, measures=["toe_front"]) if recipe is not None else None
    take(car, "toe_front", cast.owner, NOW + 2 * HOUR, amount=100, last_of=work)
    assert opened(car) == ([] if gone else [setting])


@pytest.mark.parametrize(
    ("more", "left"),
    [
        ({"kinds": ["jam_nut"], "measures": ["toe_front"]}, True),
        ({"measures": ["toe_front"]}, False),  # it only reads
        ({"kinds": ["jam_nut"], "measures": ["toe_front"], "state": "held", "finished_at": NOW}, False),
        ({"kinds": ["wiring"], "measures": ["toe_front"]}, False),
    ],
)
def test_a_figure_that_an_open_job_is_to_set_is_left_to_that_one(cast, car, more, left):
    kind = kind_of(cast.garage, "toe_front")
    readings.set_targets(car, kind, {field.slug: TargetInput("most", 50, None, "0.05") for field in kind.figures})
    JobFactory(vehicle=car, title="Set front toe last", recipe="four-wheel-alignment", **more)
    take(car, "toe_front", cast.owner, NOW, amount=100)
    assert ([job.title for job in opened(car)] == []) is left
    assert ("“Set front toe last” sets it." in amiss_said(car, ["toe_front"])) is left


def test_the_job_with_which_it_was_read_is_not_the_one_that_sets_it(cast, car):
    kind = kind_of(cast.garage, "toe_front")
    readings.set_targets(car, kind, {field.slug: TargetInput("most", 50, None, "0.05") for field in kind.figures})
    sets = {"vehicle": car, "recipe": "four-wheel-alignment", "kinds": ["jam_nut"], "measures": ["toe_front"]}
    read_with, _ = JobFactory(title="Set it once", **sets), JobFactory(title="Set it last", **sets)
    take(car, "toe_front", cast.owner, NOW, amount=100, last_of=read_with)
    assert "“Set it last” sets it." in amiss_said(car, ["toe_front"])


def test_pressures_are_put_right_with_a_pump_alone(cast, car):
    kind = kind_of(cast.garage, "tyre_pressures")
    readings.set_targets(car, kind, {field.slug: TargetInput("least", 150, None, "1.5") for field in kind.figures})
    take(car, "tyre_pressures", cast.owner, NOW, amount=100)
    setting = Job.objects.on(car).open().get(title__startswith="Set it within its limits")
    take(car, "tyre_pressures", cast.owner, NOW + HOUR, amount=200)
    setting.refresh_from_db()
    assert setting.state == "dropped"


@pytest.mark.parametrize(("limits", "more"), [(True, {"instrument": ""}), (False, {})])
def test_a_note_or_a_limit_taken_off_does_not_mend_what_is_out(cast, car, limits, more):
    kind = kind_of(cast.garage, "toe_front")
    limit = {field.slug: TargetInput("most", 50, None, "0.05") for field in kind.figures}
    readings.set_targets(car, kind, limit)
    take(car, "toe_front", cast.owner, NOW, amount=100)
    (setting,) = opened(car)
    readings.set_targets(car, kind, limit if limits else {})
    take(car, "toe_front", cast.owner, NOW + HOUR, amount=10, **more)
    assert opened(car) == [setting]


@pytest.mark.parametrize("within", [False, True])
def test_a_figure_out_of_its_limits_says_the_same_of_the_car_whether_it_ended_a_job_or_stands_alone(cast, car, within):
    kind = kind_of(cast.garage, "toe_front")
    readings.set_targets(car, kind, {field.slug: TargetInput("most", 50, None, "0.05") for field in kind.figures})
    align = JobFactory(vehicle=car, title="Align it", measures=["toe_front"], state="in_hand") if within else None
    take(car, "toe_front", cast.owner, NOW, amount=100, last_of=align)
    (setting,) = opened(car)
    assert (setting.found_in, setting.rank) == (align, "safety")
    found = verdict_of(car, NOW)
    assert (found.state, found.do_not_drive) == ("not_fit", False)


def test_more_that_is_amiss_on_a_car_asks_the_database_nothing_more(cast, car):
    toe = kind_of(cast.garage, "toe_front")
    readings.set_targets(car, toe, {field.slug: TargetInput("most", 50, None, "0.05") for field in toe.figures})
    ended = JobFactory(vehicle=car, title="Align and bleed", measures=["toe_front", "brake_bleed"], state="in_hand")
    asked = []
    for many, taking in enumerate(
        (
            lambda: take(car, "toe_front", cast.owner, NOW, amount=100, last_of=ended),
            lambda: take_failed(cast, car, NOW, ended),
        ),
        1,
    ):
        taking()
        with CaptureQueriesContext(connection) as queries:
            assert len(amiss_in(cast.garage, [ended])[ended.pk]) == many
        asked.append(len(queries))
    assert asked[0] == asked[1]


def test_a_figure_of_no_safety_system_is_not_made_a_job_and_an_older_reading_opens_none(cast, car):
    kind = kind_of(cast.garage, "cg_height")
    readings.set_targets(car, kind, {"height": TargetInput("most", 50, None, "50")})
    take(car, "cg_height", cast.owner, NOW, amount=400)
    take(car, "brake_bleed", cast.owner, NOW + HOUR)
    take_failed(cast, car, NOW)
    assert not Job.objects.on(car).open().exists()


def test_a_reading_by_itself_says_what_failed(helper, car):
    data = {"value_passed": "0", "sure": "", "instrument": "", **{k: "" for k in WHOLE if k != "instrument"}}
    answer = helper.press(f"/cars/{car.pk}/readings/throttle_return/add/", data)
    (said,) = helper.get(answer["Location"]).context["messages"]
    assert str(said) == (
        "Throttle returns by itself of Heron is written down. Throttle returns by itself: failed. "
        "To be mended, for safety: “Mend what failed: throttle returns by itself”."
    )
