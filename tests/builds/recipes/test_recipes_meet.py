"""Recipes meet each other: what the car has already is said, and written down once."""

import pytest

from builds.readings.engine.order_of_work import STAGE
from builds.recipes import actions as recipes
from builds.recipes.engine.parse import load_shipped
from builds.recipes.facts import met_on
from builds.work.facts.waits import following
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job
from builds.work.models.link import Link
from tests.builds.recipes.test_recipes import drawn
from tests.factories import NOW, VehicleFactory

pytestmark = pytest.mark.usefixtures("now")
RECIPES = {recipe.key: recipe for recipe in load_shipped()}
ELEVEN = (
    "steering-arm-rework", "damper-spring-change", "brake-overhaul", "wheel-bearing-studs", "clutch-gearbox",
    "corner-weighting", "four-wheel-alignment", "rack-centring-lock-check", "seat-mounts-harness",
    "wheels-tyres-spacers", "pre-event-spanner-check",
)  # fmt: skip


@pytest.fixture
def car(cast):
    return VehicleFactory(garage=cast.garage, name="Heron")


def taking(slug):
    """Jobs at the end of the work that take a reading."""
    rows = [job for job in Job.objects.all() if slug in job.measures]
    return [job for job in rows if not any(voids_later(job, after) for after in following(job))]


def voids_later(job, after):
    return not STAGE.keys() & set(after.measures) and bool(after.kinds) and after.kinds != ["driven"]


def test_eleven_recipes_are_weighed_aligned_and_torqued_once(owner, cast, car):
    data = {"vehicle": car.pk, "recipes": ELEVEN}
    answer = owner.press("/recipes/several/", data)
    assert answer.status_code == 303 and answer["Location"] == f"/cars/{car.pk}/"
    apart = sum(len(RECIPES[key].jobs) for key in ELEVEN)
    assert Job.objects.count() < apart
    for slug in ("corner_weights", "toe_front", "wheel_torque"):
        assert len(taking(slug)) == 1, [job.title for job in taking(slug)]


def test_the_second_recipe_says_what_the_car_has_and_one_for_all_is_ticked(owner, cast, car):
    recipes.put(RECIPES["damper-spring-change"], car, by=cast.owner, at=NOW)
    path = f"/recipes/four-wheel-alignment/put/?car={car.pk}"
    form = owner.get(path).context["form"]
    assert form.met and all(form[f"one-{key}"].value() for key in form.met)
    key, job = next(iter(form.met.items()))
    assert f"The car has “{job}” already" in owner.get(path).content.decode()
    count = Job.objects.count()
    owner.press("/recipes/four-wheel-alignment/put/", drawn(owner, path))
    recipe = RECIPES["four-wheel-alignment"]
    assert Job.objects.count() == count + len(recipe.jobs) - len(form.met)
    assert key


def test_unticked_it_is_a_job_of_its_own(owner, cast, car):
    recipes.put(RECIPES["damper-spring-change"], car, by=cast.owner, at=NOW)
    path = f"/recipes/four-wheel-alignment/put/?car={car.pk}"
    met = owner.get(path).context["form"].met
    count = Job.objects.count()
    owner.press("/recipes/four-wheel-alignment/put/", drawn(owner, path, **{f"one-{key}": None for key in met}))
    assert Job.objects.count() == count + len(RECIPES["four-wheel-alignment"].jobs)


def test_the_joined_job_keeps_all_that_either_had_and_the_longer_figures(cast, car):
    one = recipes.put(RECIPES["damper-spring-change"], car, by=cast.owner, at=NOW)
    other = RECIPES["four-wheel-alignment"]
    joined = met_on(other, car)
    before = {job.pk: (set(job.measures), set(job.kinds), job.likely_minutes) for job in joined.values()}
    made = recipes.put(other, car, by=cast.owner, at=NOW, one_for_all=joined)
    rows = {row.key: row for row in other.jobs}
    for key, job in joined.items():
        job.refresh_from_db()
        measures, kinds, likely = before[job.pk]
        assert set(job.measures) >= measures | set(rows[key].measures)
        assert set(job.kinds) >= kinds | set(rows[key].kinds)
        assert job.likely_minutes >= max(likely, rows[key].work[1])
        points = set(HoldPoint.objects.filter(job=job).values_list("what", flat=True))
        assert points >= set(rows[key].hold_points)
        for link in rows[key].after:
            assert (
                made[link.job] == made[key]
                or Link.objects.by_hand().filter(before=made[link.job], after=made[key]).exists()
            )
    assert one


def test_a_job_that_was_begun_is_not_joined(cast, car):
    made = recipes.put(RECIPES["corner-weighting"], car, by=cast.owner, at=NOW)
    Job.objects.filter(pk__in=[job.pk for job in made.values()]).update(state="in_hand")
    assert met_on(RECIPES["corner-weighting"], car) == {}


def test_the_same_recipe_twice_adds_nothing(cast, car):
    recipe = RECIPES["corner-weighting"]
    recipes.put(recipe, car, by=cast.owner, at=NOW)
    count = Job.objects.count()
    recipes.put_several([recipe], car, by=cast.owner, at=NOW)
    assert Job.objects.count() == count


def test_no_recipe_is_a_sentence_at_the_field(owner, car):
    answer = owner.press("/recipes/several/", {"vehicle": car.pk})
    assert answer.context["form"].errors["recipes"] == ["Tick at least one recipe."]
