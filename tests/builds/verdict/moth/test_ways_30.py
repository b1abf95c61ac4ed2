"""More ways by which somebody tried to bring a car to "Fit to run": edits, moves, undoing; one car that was fit."""

import uuid
from datetime import timedelta

import pytest

from builds.joints import actions as joints
from builds.needs.actions import needs
from builds.recipes.actions import putting
from builds.recipes.engine.parse import load_shipped
from builds.shelf.actions import shelf
from builds.steps.actions import jobs, steps
from builds.verdict.facts.verdict import verdict_of
from garage.actions import people
from garage.actions.refused import Refused
from tests.factories import NOW, MembershipFactory
from tests.parts.factories import PartFactory, PlaceFactory

pytestmark = [pytest.mark.once, pytest.mark.usefixtures("now")]
HOUR = timedelta(hours=1)
WORK = (30, 60, 90)


def written(car, cast, title="Work on it", **more):
    told = {"systems": ["steering"], "kinds": ["joint_opened"], **more}
    return jobs.add(car, by=cast.helper, at=NOW, title=title, work=WORK, **told)


class TestJointsAskedLessOf:
    @pytest.fixture
    def rod(self, cast, car):
        rod = joints.add(car, name="Tie rod end", systems=["steering"], opened_by=["joint_opened"])
        joints.mark(rod, by=cast.helper, at=NOW, key=uuid.uuid4())
        joints.sign(rod, by=cast.owner, at=NOW, key=uuid.uuid4())
        return rod

    @staticmethod
    def change(rod, by, **more):
        told = {name: getattr(rod, name) for name in joints.FIELDS}
        return joints.change(rod, by=by, at=NOW + 5 * HOUR, **{**told, **more})

    @pytest.mark.parametrize("how", ["opened", "unsigned"])
    def test_what_does_not_stand_is_put_right_before_it_is_asked_less_of(self, cast, car, rod, how):
        if how == "opened":
            steps.finish(written(car, cast), by=cast.helper, at=NOW + HOUR)
        else:
            joints.mark(rod, by=cast.helper, at=NOW + HOUR, key=uuid.uuid4())
        refused = pytest.raises(Refused, match="was torqued, and that does not stand: have it torqued and signed")
        for less in ({"systems": []}, {"opened_by": []}):
            with refused:
                self.change(rod, cast.owner, **less)
            rod.refresh_from_db()
        with refused:
            joints.retire(rod, at=NOW + 3 * HOUR)
        assert verdict_of(car, NOW + 4 * HOUR).do_not_drive
        joints.mark(rod, by=cast.helper, at=NOW + 4 * HOUR, key=uuid.uuid4())
        joints.sign(rod, by=cast.owner, at=NOW + 4 * HOUR, key=uuid.uuid4())
        self.change(rod, cast.owner, opened_by=[], name="Tie rod end, left")
        joints.retire(rod, at=NOW + 5 * HOUR)


def test_what_a_job_that_is_over_asked_for_is_made_less_by_the_owner_alone(cast, car):
    part, place = PartFactory(garage=cast.garage, name="Rod end"), PlaceFactory(garage=cast.garage)
    shelf.carry_out(part, "receive", quantity=2, target=place, by=cast.owner, at=NOW)
    job = written(car, cast)
    asked = needs.add(job, at=NOW, what="rod end", part=part, quantity=2)
    shelf.carry_out(part, "pull", quantity=2, source=place, job=job, by=cast.helper, at=NOW)
    steps.finish(job, by=cast.helper, at=NOW + HOUR)
    asked.refresh_from_db()
    other = PartFactory(garage=cast.garage, name="Washer")
    for less in ({"quantity": 1}, {"part": other}, {"part": None}):
        with pytest.raises(Refused, match="only the owner says that it needed less, or another part"):
            needs.change(asked, by=cast.helper, **less)
    with pytest.raises(Refused, match="only the owner says"):
        needs.name_part(asked, other, by=cast.helper)
    needs.change(asked, by=cast.helper, supplier="the shop")
    needs.change(asked, by=cast.owner, quantity=1)


def test_whoever_left_and_is_written_down_anew_does_not_sign_his_own_work(cast, car):
    job = written(car, cast)
    steps.start(job, by=cast.helper, at=NOW)
    steps.finish(job, by=cast.helper, at=NOW + HOUR)
    people.remove(cast.helper, at=NOW + HOUR)
    anew = MembershipFactory(garage=cast.garage, person__name=cast.helper.name.upper(), may_sign=True)
    with pytest.raises(Refused, match="worked on this: somebody else has to look"):
        steps.sign(job, by=anew, at=NOW + 2 * HOUR)
    steps.sign(job, by=cast.owner, at=NOW + 2 * HOUR)


def test_what_was_seen_keeps_its_words_when_a_recipe_takes_its_job_over(cast, car):
    recipe = next(recipe for recipe in load_shipped() if recipe.key == "four-wheel-alignment")
    row = next(row for row in recipe.jobs if row.kinds)
    clonk = written(car, cast, "Steering pulls to the left", kinds=[], seen=True)
    putting.put(recipe, car, by=cast.owner, at=NOW, one_for_all={row.key: clonk})
    clonk.refresh_from_db()
    assert (clonk.title, clonk.was_called) == (row.title, "Steering pulls to the left")
