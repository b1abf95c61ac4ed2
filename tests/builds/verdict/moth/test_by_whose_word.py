"""Words that say nothing, and words that are somebody else's to say: none of them makes a car fit."""

import uuid
from datetime import timedelta

import pytest

from builds.joints import actions as joints
from builds.needs.actions import needs
from builds.needs.facts.crashed import Crashed, crashed_with
from builds.readings.actions import readings
from builds.readings.actions.readings import Typed
from builds.readings.facts.kinds import kinds_of
from builds.recipes.actions import putting
from builds.recipes.engine.parse import load_shipped
from builds.scrutineering.actions import checks
from builds.scrutineering.models.check import CheckItem
from builds.shelf.actions import shelf
from builds.steps.actions import hold_points, jobs, steps
from builds.verdict.facts.verdict import verdict_of
from builds.work.models.hold_point import HoldPoint
from garage.actions import gear as gear_actions
from garage.actions.refused import Refused
from parts.actions.parts import change
from parts.actions.places import car_place
from tests.builds.gear.gear_kit import piece
from tests.builds.readings.reading_kit import WHOLE, require
from tests.builds.verdict.moth_kit import KINDS, tick_all
from tests.factories import NOW, HoldPointFactory, VehicleFactory
from tests.parts.factories import PartFactory, PlaceFactory

pytestmark = [pytest.mark.once, pytest.mark.usefixtures("now")]
HOUR, DAY = timedelta(hours=1), timedelta(days=1)
EMPTY = [".", "-----", "12345678"]


@pytest.fixture
def job(cast, car):
    told = {"title": "Work on it", "work": (30, 60, 90), "systems": ["steering"], "kinds": ["joint_opened"]}
    return jobs.add(car, by=cast.helper, at=NOW, **told)


@pytest.fixture
def rod(cast):
    """Two of them, good, on the shelf."""
    part = PartFactory(garage=cast.garage, name="Tie rod", systems=["steering"], condition="good")
    shelf.carry_out(part, "receive", quantity=2, target=PlaceFactory(garage=cast.garage), by=cast.owner, at=NOW - DAY)
    return part


def place_of(part):
    return part.balances.filter(quantity__gt=0).get().place


class TestWordsThatSayNothing:
    @pytest.mark.parametrize("because", EMPTY)
    def test_why_a_part_of_unknown_history_may_go_on(self, cast, car, job, rod, because):
        change(rod, by=cast.owner, at=NOW, condition="unknown")
        told = {"quantity": 1, "source": place_of(rod), "car": car, "job": job, "by": cast.helper, "at": NOW}
        with pytest.raises(Refused, match="Nobody knows the history of Tie rod"):
            shelf.carry_out(rod, "fit", unknown_because=because, **told)
        shelf.carry_out(rod, "fit", unknown_because="crack tested by Tove", **told)

    @pytest.mark.parametrize("because", EMPTY)
    def test_why_struck_gear_is_good(self, cast, car, because):
        belts = piece(car)
        gear_actions.strike(belts, note="kerb", at=NOW)
        with pytest.raises(Refused, match="Say why it is good"):
            gear_actions.let_pass(belts, because=because, by=cast.owner, at=NOW)
        belts.refresh_from_db()
        assert belts.struck_at and not belts.passed_at

    @pytest.mark.parametrize("note", EMPTY)
    def test_why_an_item_does_not_apply(self, cast, note):
        with pytest.raises(Refused, match="Write down in words why it does not apply"):
            checks.take(CheckItem.objects.first(), "leave_out", by=cast.owner, at=NOW, note=note, key=uuid.uuid4())

    @pytest.mark.parametrize("note", EMPTY)
    def test_why_a_torque_is_far_off_the_makers_figure(self, cast, car, note):
        nuts = joints.add(car, name="Wheel nuts", systems=["wheels"], figure_mnm=105_000, figure_from="maker")
        told = {"by": cast.helper, "at": NOW, "key": uuid.uuid4(), "torque_mnm": 20_000}
        with pytest.raises(Refused, match="more than a tenth off"):
            joints.mark(nuts, note=note, **told)
        joints.mark(nuts, note="rolled on by hand only", **told)

    def test_who_did_what_a_point_asks_for(self, cast, job):
        point = HoldPointFactory(job=job, what="Crack test", asks="who did it")
        assert hold_points.refuse_value(point, " . ") == "This point asks for a value: who did it."
        assert hold_points.refuse_value(point, "Bo") is None

    def test_what_a_reading_was_taken_with(self, cast, car):
        kind = kinds_of(cast.garage)["brake_bleed"]
        values = {field.slug: Typed(1, "passed") for field in kind.fields}
        with_dot = readings.take(car, kind, values, by=cast.owner, at=NOW, sure=True, **WHOLE | {"instrument": "."})
        assert "instrument" not in with_dot.given
        assert "instrument" in readings.take(car, kind, values, by=cast.owner, at=NOW, sure=True, **WHOLE).given


class TestWordsOfTheOwner:
    def test_what_a_finished_job_was_without_is_not_there_by_a_helpers_tap(self, cast, car, job, helper, owner):
        asked = needs.add(job, at=NOW, what="rod end")
        steps.finish(job, by=cast.helper, at=NOW + HOUR)
        helper.press(f"/needs/{asked.pk}/got/")
        asked.refresh_from_db()
        assert asked.got_at is None
        said = verdict_of(car, NOW + 2 * HOUR)
        assert "“Work on it” is done, but never fitted: rod end." in [reason.sentence for reason in said.reasons]
        with pytest.raises(Refused, match="is over without rod end: only the owner says that it was fitted"):
            needs.got(asked, by=cast.helper, at=NOW)
        owner.press(f"/needs/{asked.pk}/got/")
        asked.refresh_from_db()
        assert asked.got_at

    def test_while_the_job_is_open_whoever_has_the_part_says_so(self, cast, job):
        asked = needs.add(job, at=NOW, what="rod end")
        needs.got(asked, by=cast.helper, at=NOW)
        asked.refresh_from_db()
        assert asked.got_at == NOW

    @pytest.mark.parametrize("doubt", ["scrap", "repair", "unknown"])
    def test_what_lives_hang_on_is_good_again(self, cast, rod, doubt):
        change(rod, by=cast.helper, at=NOW, condition=doubt)
        with pytest.raises(Refused, match="Only the owner says that Tie rod is good again"):
            change(rod, by=cast.helper, at=NOW, condition="good")
        change(rod, by=cast.owner, at=NOW, condition="good")

    def test_a_helper_says_that_the_cup_holder_is_good_again(self, cast):
        cup = PartFactory(garage=cast.garage, name="Cup holder", systems=["body"], condition="repair")
        change(cup, by=cast.helper, at=NOW, condition="good")

    def test_a_point_of_a_recipe_is_not_taken_off_safety_work(self, cast, car):
        recipe = next(recipe for recipe in load_shipped() if recipe.key == "brake-overhaul")
        made = putting.put(recipe, car, by=cast.owner, at=NOW)
        for point in HoldPoint.objects.filter(job__in=made.values()):
            with pytest.raises(Refused, match="came with its recipe, and lives hang on it"):
                hold_points.remove(point)
        assert HoldPoint.objects.filter(job__in=made.values()).exists()

    def test_a_joint_that_open_work_opens_stays_on_the_list(self, cast, car, job):
        nut = joints.add(car, name="Tie rod nut", systems=["steering"], opened_by=["joint_opened"])
        joints.mark(nut, by=cast.helper, at=NOW, key=uuid.uuid4())
        joints.sign(nut, by=cast.owner, at=NOW, key=uuid.uuid4())
        with pytest.raises(Refused, match="“Work on it” opens Tie rod nut and is not over"):
            joints.retire(nut, at=NOW + HOUR)
        other = joints.add(car, name="Seat bolts", systems=["restraint"], opened_by=["seat_or_belt_moved"])
        joints.retire(other, at=NOW + HOUR)


class TestPartsOfACrashedCar:
    @pytest.fixture
    def pulled(self, cast, rod):
        """One was on Wasp when she hit the wall, and came off her."""
        wasp = VehicleFactory(garage=cast.garage, name="Wasp")
        told = {"quantity": 1, "by": cast.owner}
        shelf.carry_out(rod, "fit", source=place_of(rod), car=wasp, all_along=True, at=NOW - 4 * HOUR, **told)
        jobs.add(wasp, by=cast.owner, at=NOW - 3 * HOUR, title="Hit the wall", work=(1, 2, 3), kinds=["crash"])
        return shelf.carry_out(rod, "pull", source=car_place(wasp), at=NOW - 2 * HOUR, **told)

    def test_it_goes_on_once_somebody_says_who_found_it_good(self, cast, car, job, rod, pulled):
        assert crashed_with(rod) == Crashed("Wasp", "Hit the wall")
        told = {"quantity": 1, "source": pulled.target, "car": car, "job": job, "by": cast.helper, "at": NOW}
        with pytest.raises(Refused, match="Tie rod was on Wasp in “Hit the wall”: have it inspected"):
            shelf.carry_out(rod, "fit", **told)
        move = shelf.carry_out(rod, "fit", unknown_because="crack tested by Pella", **told)
        assert move.why == "crack tested by Pella"

    def test_the_form_asks(self, rod, pulled, helper):
        assert 'name="unknown_because"' in helper.get(f"/parts/{rod.pk}/move/fit/").content.decode()

    def test_not_what_was_found_good_since(self, cast, rod, pulled):
        change(rod, by=cast.owner, at=NOW - HOUR, condition="unknown")
        change(rod, by=cast.owner, at=NOW - HOUR, condition="good")
        assert crashed_with(rod) is None


class TestReadings:
    def test_a_reading_of_the_garages_own_that_no_limit_judges_is_not_known(self, cast, car):
        own = readings.add_kind(cast.garage, name="Front pad thickness", unit="mm", follows="")
        key = next(key for key, kind in kinds_of(cast.garage).items() if kind.own and kind.own.pk == own.pk)
        require(car, cast.owner, *KINDS, key)
        kind = kinds_of(cast.garage)[key]
        readings.take(car, kind, {kind.fields[0].slug: Typed(0, "0", "mm")}, by=cast.owner, at=NOW, sure=True, **WHOLE)
        tick_all(cast, NOW)
        said = verdict_of(car, NOW)
        assert said.state == "not_known"
        assert any("Front pad thickness" in reason.sentence for reason in said.reasons)
