"""Recipes meet each other: what the car has already is said, and written down once."""

import pytest

from builds.readings.engine.car_job import CarJob, ChainStep
from builds.recipes.actions import putting as recipes
from builds.recipes.engine.parse import load_shipped
from builds.recipes.facts import met_on
from builds.steps.actions import jobs, links
from builds.work.engine.urgency import find_cycle
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job
from builds.work.models.link import Link, StationHold
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


def standing_at(step):
    """Jobs of the car at that step of the measuring chain, but the one that reads how it stood before."""
    rows = [job for job in Job.objects.all() if not job.title.startswith("Read the car")]
    return [job.title for job in rows if CarJob(tuple(job.kinds), tuple(job.measures)).step == step]


def test_eleven_recipes_are_weighed_aligned_and_torqued_once(owner, cast, car):
    data = {"vehicle": car.pk, "recipes": ELEVEN}
    answer = owner.press("/recipes/several/", data)
    assert answer.status_code == 303 and answer["Location"] == f"/cars/{car.pk}/"
    apart = sum(len(RECIPES[key].jobs) for key in ELEVEN)
    assert Job.objects.count() < apart
    for step in (
        ChainStep.ON_WHEELS,
        ChainStep.LOADED,
        ChainStep.HEIGHT,
        ChainStep.TRIMMED,
        ChainStep.REAR_TOE,
        ChainStep.FRONT_TOE,
        ChainStep.TORQUED,
    ):
        assert len(standing_at(step)) == 1, standing_at(step)
    assert standing_at(ChainStep.WEIGHED) == ["Weigh and set the cross weight", "Hook the bars up with no preload"]
    said = [str(message) for message in owner.get("/recipes/").context["messages"]]
    assert said[0].startswith(f"{Job.objects.count()} jobs are new on Heron.")


def test_the_second_recipe_says_what_the_car_has_and_one_for_all_is_ticked(owner, cast, car):
    recipes.put(RECIPES["damper-spring-change"], car, by=cast.owner, at=NOW)
    path = f"/recipes/four-wheel-alignment/put/?car={car.pk}"
    form = owner.get(path).context["form"]
    assert form.met and all(form[f"one-{key}"].value() for key in form.met)
    key, job = next(iter(form.met.items()))
    assert f"“{job}” is on the car already and will do this too." in owner.get(path).content.decode()
    count = Job.objects.count()
    owner.press("/recipes/four-wheel-alignment/put/", drawn(owner, path))
    recipe = RECIPES["four-wheel-alignment"]
    assert Job.objects.count() == count + len(recipe.jobs) - len(form.met)
    new, served = len(recipe.jobs) - len(form.met), len(form.met)
    [said] = [str(message) for message in owner.get("/recipes/").context["messages"]]
    assert said.startswith(f"{new} jobs are new on Heron; {served} are done by jobs that were on it already.")
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


def test_what_a_recipe_brings_to_a_job_by_hand_is_done_by_whoever_can(cast, car):
    toe = jobs.add(car, by=cast.owner, at=NOW, title="Check toe", work=(1, 2, 3), measures=["toe_front"], rank="needed")
    recipes.put_several([RECIPES["four-wheel-alignment"]], car, by=cast.owner, at=NOW)
    toe.refresh_from_db()
    assert "toe_rear" in toe.measures or len(toe.measures) > 1
    assert toe.skill is not None and toe.skill.slug == "align"


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


@pytest.mark.parametrize("several", [False, True])
def test_a_recipe_that_the_car_has_already_adds_nothing_and_says_so(owner, cast, car, several):
    """With a station that is kept, which once ended in an error."""
    recipes.put(RECIPES["damper-spring-change"], car, by=cast.owner, at=NOW)
    count, holds = Job.objects.count(), StationHold.objects.count()
    path = f"/recipes/damper-spring-change/put/?car={car.pk}"
    data = {"vehicle": car.pk, "recipes": ["damper-spring-change"]} if several else drawn(owner, path)
    answer = owner.press("/recipes/several/" if several else path, data)
    assert answer.status_code == 303 and (Job.objects.count(), StationHold.objects.count()) == (count, holds)
    [said] = [str(message) for message in owner.get("/recipes/").context["messages"]]
    assert said.startswith("Heron has all of “Damper and spring change” already: nothing was added.")


def test_a_job_that_somebody_raised_to_safety_stays_so_when_a_recipe_joins_it(owner, cast, car):
    made = recipes.put(RECIPES["sensor-start-faults"], car, by=cast.owner, at=NOW)
    Job.objects.filter(pk=made["note"].pk).update(rank="safety")
    data = {"vehicle": car.pk, "recipes": ["sensor-start-faults"]}
    assert owner.press("/recipes/several/", data).status_code == 303
    made["note"].refresh_from_db()
    assert (made["note"].rank, Job.objects.count()) == ("safety", len(made))


def test_three_recipes_that_add_nothing_are_named_as_a_list(owner, cast, car):
    keys = ["battery-switch-wiring", "cage-padding", "sensor-start-faults"]
    for _ in range(2):
        owner.press("/recipes/several/", {"vehicle": car.pk, "recipes": keys})
    said = [str(message) for message in owner.get("/recipes/").context["messages"]][-1]
    assert said.count(" and “") == 1 and "”, “" in said


def test_a_joined_job_says_whose_work_it_does_too_and_names_each_tool_once(cast, car):
    made = recipes.put_several(
        [RECIPES["seat-mounts-harness"], RECIPES["four-wheel-alignment"]], car, by=cast.owner, at=NOW
    )
    toe = next(job for job in Job.objects.all() if job.title.startswith("Set front toe last"))
    assert "It does for “Check camber, caster, rear toe, front toe” too" in toe.note
    assert toe.note.count("Tools: ") == 1 and toe.note.count("toe plates") == 1
    assert len(made.new) == Job.objects.count()


@pytest.mark.parametrize("side", ["", "left", "both"])
def test_a_hub_that_comes_off_with_its_arm_is_taken_out_and_closed_once_a_side(cast, car, side):
    keys = ("wheel-bearing-studs", "steering-arm-rework")
    recipes.put_several([RECIPES[key] for key in keys], car, by=cast.owner, at=NOW, side=side)
    sides = {"": [""], "left": [", left"], "both": [", left", ", right"]}[side]
    rows = {job.title: job for job in Job.objects.all()}
    for said in sides:
        refit = rows[f"Refit the arm with new nuts and pins{said}"]
        assert "It does for “Refit hub and brake with a new hub nut" in refit.note
        points = HoldPoint.objects.filter(job=refit).values_list("what", flat=True)
        assert len(points) == 3 and any(point.startswith("Hub nut new, torqued to the maker's") for point in points)
        assert Link.objects.by_hand().filter(before=rows[f"Fit the wheel studs{said}"], after=refit).exists()
        strip = rows[f"Raise the car, hub and brake off, take the arm off{said}"]
        assert Link.objects.by_hand().filter(before=strip, after=rows[f"Fit the wheel studs{said}"]).exists()
    assert not [title for title in rows if title.startswith(("Refit hub", "Wheel and brake off"))]
    assert sum("bearing_play" in job.measures for job in rows.values()) == len(sides)


def test_bars_are_signed_by_the_job_that_hooks_them_up(cast, car):
    recipes.put_several([RECIPES["corner-weighting"], RECIPES["damper-spring-change"]], car, by=cast.owner, at=NOW)
    points = HoldPoint.objects.filter(what__startswith="Bar links")
    assert [point.job.title for point in points] == ["Hook the bars up with no preload"]


def test_joining_closes_no_circle_through_a_job_of_another_car(cast, car):
    def by_hand(on, title, *measures):
        return jobs.add(on, by=cast.owner, at=NOW, title=title, work=(1, 2, 3), measures=list(measures), rank="needed")

    weighed, toe = by_hand(car, "Weigh it", "ride_height", "corner_weights"), by_hand(car, "Read toe", "toe_front")
    there = by_hand(VehicleFactory(garage=cast.garage, name="Badger"), "Scales go to Badger")
    links.add(toe, there)
    links.add(there, weighed)
    recipes.put_several([RECIPES["seat-mounts-harness"]], car, by=cast.owner, at=NOW)
    assert find_cycle(list(Link.objects.standing().values_list("before_id", "after_id"))) is None


def test_no_recipe_is_a_sentence_at_the_field(owner, car):
    answer = owner.press("/recipes/several/", {"vehicle": car.pk})
    assert answer.context["form"].errors["recipes"] == ["Tick at least one recipe."]
