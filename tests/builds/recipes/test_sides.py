"""A recipe for the left side, the right, or both: what doubles stands on each side, the rest once."""

from collections import Counter
from datetime import timedelta

from pytest import fixture, mark

from builds.recipes.actions import putting as recipes
from builds.recipes.engine.parse import load_shipped
from builds.recipes.engine.sides import at_side, has_sides, without_side
from builds.verdict.facts.joints import weld_facts
from builds.work.models.job import Job
from builds.work.models.link import Link
from tests.factories import NOW, VehicleFactory

RECIPES = {recipe.key: recipe for recipe in load_shipped()}
ARM = RECIPES["steering-arm-rework"]
EACH = [job.title for job in ARM.jobs if job.each_side]
ONCE = [job.title for job in ARM.jobs if not job.each_side]
SIDED = sorted(key for key, recipe in RECIPES.items() if has_sides(recipe))


@fixture
def car(cast, now):
    return VehicleFactory(garage=cast.garage, name="Heron")


def put(car, side, by, recipe=ARM, **more):
    return recipes.put_at(recipe, side, car, by=by, at=NOW, **more)


def titles(car):
    return Counter(Job.objects.on(car).values_list("title", flat=True))


def test_an_arm_and_a_wheel_have_sides_and_an_alignment_has_none():
    assert SIDED == ["steering-arm-rework", "wheel-bearing-studs"]
    assert not has_sides(RECIPES["four-wheel-alignment"])


def test_a_side_stands_in_the_titles_of_what_is_done_on_it():
    left = at_side(ARM, "left")
    assert [job.title for job in left.jobs if job.each_side] == [f"{title}, left" for title in EACH]
    assert [job.title for job in left.jobs if not job.each_side] == ONCE
    assert [without_side(job.title) for job in left.jobs] == [job.title for job in ARM.jobs]
    assert at_side(ARM, "") is ARM


@mark.parametrize("side", ["left", "right"])
def test_one_side_is_one_job_each(cast, car, side):
    put(car, side, cast.owner)
    assert titles(car) == Counter([f"{title}, {side}" for title in EACH] + ONCE)


@mark.parametrize("key", SIDED)
def test_both_sides_are_two_jobs_where_work_doubles_and_one_where_it_does_not(cast, car, key):
    recipe = RECIPES[key]
    made = put(car, "both", cast.owner, recipe)
    expected = Counter(
        title
        for job in recipe.jobs
        for title in ((f"{job.title}, left", f"{job.title}, right") if job.each_side else (job.title,))
    )
    assert titles(car) == expected
    assert len(made.new) == len(made.asked) == expected.total()


def test_a_side_waits_for_its_own_and_what_stands_once_for_both(cast, car):
    made = {job.title: job for job in put(car, "both", cast.owner).new}
    before = {
        title: set(Link.objects.filter(after=made[title]).values_list("before__title", flat=True))
        for title in ("Weld the arm, left", "Weld the arm, right", "Wheels on and car down")
    }
    fit = "Offer up the tacked arm and check the fit"
    assert before["Weld the arm, left"] == {f"{fit}, left"}
    assert before["Weld the arm, right"] == {f"{fit}, right"}
    refit = "Refit the arm with new nuts and pins"
    assert {f"{refit}, left", f"{refit}, right"} <= before["Wheels on and car down"]


def test_the_other_side_put_on_later_shares_what_stands_once(cast, car):
    put(car, "left", cast.owner)
    put(car, "right", cast.owner, one_for_all=recipes.met_on(ARM, car))
    assert all(count == 1 for count in titles(car).values())
    assert titles(car).total() == 2 * len(EACH) + len(ONCE)


def test_the_same_side_put_on_twice_is_there_once(cast, car):
    put(car, "left", cast.owner)
    put(car, "left", cast.owner, one_for_all=recipes.met_on(ARM, car))
    assert titles(car) == Counter([f"{title}, left" for title in EACH] + ONCE)


def test_the_other_side_welded_later_leaves_an_inspected_weld_as_it_is(cast, car):
    put(car, "both", cast.owner)
    for hours, side in enumerate(("left", "right")):
        steps = Job.objects.on(car).exclude(weld="").filter(title__endswith=f", {side}")
        steps.update(state="done", finished_at=NOW + timedelta(hours=hours))
    assert weld_facts([car])[car.pk] == []


def test_an_inspected_left_says_nothing_of_a_tacked_right(cast, car):
    put(car, "both", cast.owner)
    welds = Job.objects.on(car).exclude(weld="")
    welds.filter(title__endswith=", left").update(state="done", finished_at=NOW)
    welds.filter(title="Cut, jig and tack the arm, right").update(state="done", finished_at=NOW)
    assert [(fact.state, fact.title) for fact in weld_facts([car])[car.pk]] == [
        ("tacked", "Offer up the tacked arm and check the fit, right")
    ]


def test_the_page_asks_for_the_side_and_writes_it(owner, cast, car):
    page = owner.get(f"/recipes/{ARM.key}/put/?car={car.pk}")
    assert "Side of the car" in page.content.decode()
    assert "Side of the car" not in owner.get(f"/recipes/four-wheel-alignment/put/?car={car.pk}").content.decode()
    form = page.context["form"]
    sent = {bound.name: bound.value() if bound.value() is not None else "" for bound in form}
    sent |= {"vehicle": car.pk, "side": "both"}
    assert owner.press(f"/recipes/{ARM.key}/put/", sent).status_code == 303
    assert titles(car)["Weld the arm, right"] == titles(car)["Weld the arm, left"] == 1
    assert titles(car)["Torque the wheels by hand"] == 1


def test_a_side_that_no_car_has_is_refused_at_its_field(owner, cast, car):
    sent = {"vehicle": car.pk, "recipes": [ARM.key], "side": "top"}
    answer = owner.press("/recipes/several/", sent)
    assert answer.status_code == 422
    assert list(answer.context["form"].errors) == ["side"]
    assert not Job.objects.on(car)


def test_a_recipe_put_on_again_keeps_its_station_once(owner, cast, car):
    put(car, "", cast.owner)
    form = owner.get(f"/recipes/{ARM.key}/put/?car={car.pk}").context["form"]
    sent = {bound.name: bound.value() if bound.value() is not None else "" for bound in form}
    assert owner.press(f"/recipes/{ARM.key}/put/", {**sent, "vehicle": car.pk}).status_code == 303
    assert titles(car) == Counter(EACH + ONCE)
