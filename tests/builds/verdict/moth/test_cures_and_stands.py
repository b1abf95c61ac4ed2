"""A car whose screen or paint still cures is not fit, nor one that was read on stands or unlike raced."""

import pytest

from builds.recipes.actions import putting
from builds.recipes.engine.parse import load_shipped
from builds.steps.actions import hold_points, links, steps
from builds.verdict.facts.verdict import verdict_of
from builds.work.models.hold_point import HoldPoint
from garage.actions import vehicles
from tests.builds.readings.reading_kit import take
from tests.builds.verdict.moth_kit import tick_all
from tests.builds.verdict.ways_kit import DAY, HOUR, MINUTE, all_read, said, written
from tests.factories import NOW

pytestmark = [pytest.mark.once, pytest.mark.usefixtures("now")]


class TestCures:
    """What cures is not loaded before its time (trade rule 30)."""

    def test_a_bonded_screen_that_nobody_said_anything_of(self, cast, car):
        job = written(car, cast, "Bond the windscreen in", systems=["glass"], kinds=["glass_bonding"])
        steps.finish(job, by=cast.helper, at=NOW + HOUR)
        tick_all(cast, NOW + HOUR)
        assert "“Bond the windscreen in” cures, and nobody has said how long" in said(car, NOW + HOUR + MINUTE)
        assert verdict_of(car, NOW + HOUR + MINUTE).state == "not_known"
        assert "cures" not in said(car, NOW + HOUR + 3 * DAY)

    def test_until_the_time_that_somebody_wrote_down(self, cast, car):
        job = written(car, cast, "Bond the windscreen in", systems=["glass"], kinds=["glass_bonding"])
        look = written(car, cast, "Release it", systems=["glass"], kinds=[], rank="wanted")
        links.add(job, look, wait_minutes=120, why="the maker's time")
        steps.finish(job, by=cast.helper, at=NOW + HOUR)
        tick_all(cast, NOW + HOUR)
        assert "“Bond the windscreen in” cures until" in said(car, NOW + 2 * HOUR)
        assert verdict_of(car, NOW + 2 * HOUR).state == "not_fit"
        assert "cures" not in said(car, NOW + 3 * HOUR)

    def test_by_its_recipe_with_all_later_jobs_left_out(self, cast, car):
        recipe = next(one for one in load_shipped() if one.key == "bonded-windscreen")
        left_out = [job.key for job in recipe.jobs if job.key != "bond"]
        (job,) = putting.put(recipe, car, by=cast.owner, at=NOW, leave_out=left_out).values()
        steps.finish(job, by=cast.helper, at=NOW + HOUR)
        for point in HoldPoint.objects.filter(job=job):
            hold_points.sign(point, by=cast.owner, at=NOW + HOUR, value="a")
        tick_all(cast, NOW + HOUR)
        assert "cures, and nobody has said how long" in said(car, NOW + HOUR + 10 * MINUTE)

    @pytest.mark.parametrize(("systems", "kinds", "told"), [
        (["suspension"], ["paint"], True), (["body"], ["paint_under_joint"], True), (["body"], ["paint"], False),
    ])  # fmt: skip
    def test_paint_where_it_is_loaded_and_not_on_the_skin(self, cast, car, systems, kinds, told):
        job = written(car, cast, "Paint it", systems=systems, kinds=kinds)
        steps.finish(job, by=cast.helper, at=NOW + HOUR)
        assert ("“Paint it” cures" in said(car, NOW + 2 * HOUR)) is told

    def test_the_usual_time_that_a_seat_waits_is_nobodys_word(self, cast, car):
        paint = written(car, cast, "Paint the inside", systems=["body"], kinds=["paint"])
        written(car, cast, "Seat in", systems=["seat"], kinds=["seat_work", "seat_or_belt_moved"])
        steps.finish(paint, by=cast.helper, at=NOW + HOUR)
        assert "“Paint the inside” cures, and nobody has said how long" in said(car, NOW + 2 * HOUR)

    @pytest.mark.parametrize("state", ["hands off", "over"])
    def test_what_is_glued_on_holds_nothing_before_it_has_cured(self, cast, car, state):
        job = written(car, cast, "Glue the splitter on", systems=["body"], kinds=["glued"])
        steps.finish(job, by=cast.helper, at=NOW + HOUR)
        tick_all(cast, NOW + HOUR)
        at = NOW + HOUR + (MINUTE if state == "hands off" else DAY)
        assert ("“Glue the splitter on” cures, and nobody has said how long" in said(car, at)) is (state != "over")

    def test_paint_on_the_skin_is_said_beside(self, cast, car):
        job = written(car, cast, "Paint the wing", systems=["body"], kinds=["paint"])
        steps.finish(job, by=cast.helper, at=NOW + HOUR)
        tick_all(cast, NOW + HOUR)
        assert verdict_of(car, NOW + 2 * HOUR).sentence == "Fit to run; “Paint the wing” still cures"
        assert "cures" not in verdict_of(car, NOW + HOUR + 7 * DAY).besides


class TestOnStands:
    """What wants the car on its wheels was not read on stands."""

    def test_read_on_stands_and_then_said_to_be_driveable(self, cast, car, owner):
        vehicles.change(car, state="stands")
        assert "is on stands" in owner.get(f"/cars/{car.pk}/readings/corner_weights/add/").content.decode()
        all_read(car, cast, NOW + HOUR)
        vehicles.change(car, state="driveable")
        told = said(car, NOW + 2 * HOUR)
        assert "Counts as a note only: Front toe. The car was stripped or on stands when it was taken." in told
        assert "Brake bleed" not in told
        all_read(car, cast, NOW + 2 * HOUR)
        assert verdict_of(car, NOW + 3 * HOUR).state == "fit"

    def test_what_is_read_in_the_job_that_puts_it_down_is_read_on_its_wheels(self, cast, car):
        vehicles.change(car, state="stands")
        job = written(car, cast, "Wheels on, weigh it", systems=["wheels"], kinds=["wheels_on"])
        assert not take(car, "ride_height", cast.owner, at=NOW + HOUR, last_of=job).stripped
        assert take(car, "ride_height", cast.owner, at=NOW + HOUR).stripped


@pytest.mark.parametrize("odd", [{"driver": "empty"}, {"fuel_ml": 0}])
@pytest.mark.parametrize("kind", ["ride_height", "toe_front"])
def test_what_depends_on_the_load_is_read_as_raced(cast, car, kind, odd):
    take(car, kind, cast.owner, at=NOW + HOUR, **odd)
    assert "Not as raced" in said(car, NOW + 2 * HOUR)
    take(car, kind, cast.owner, at=NOW + 2 * HOUR, bars="hooked")
    assert verdict_of(car, NOW + 3 * HOUR).state == "fit"
