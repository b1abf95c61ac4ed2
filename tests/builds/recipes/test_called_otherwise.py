"""A job of a recipe that is called otherwise is asked as work by hand is: only the recipe's own words are trusted."""

import pytest

from builds.recipes.actions import putting
from builds.recipes.engine.parse import load_shipped
from builds.recipes.engine.renamed import as_called
from builds.steps.actions import jobs, steps
from builds.work.models.job import Job
from garage.actions.refused import Refused
from tests.factories import NOW, VehicleFactory

pytestmark = pytest.mark.django_db
RECIPE = next(recipe for recipe in load_shipped() if recipe.key == "four-wheel-alignment")
READ = next(job for job in RECIPE.jobs if job.key == "before")
OTHERS = [job.key for job in RECIPE.jobs if job.key != "before"]
RODS = "Replace both tie rods"


@pytest.fixture
def car(cast, now):
    return VehicleFactory(garage=cast.garage)


def sent(car, title):
    """The form with one job of the recipe in it, called that."""
    data = {"vehicle": car.pk, "side": "", "offered": "", f"take-{READ.key}": "on"}
    for job in RECIPE.jobs:
        low, likely, high = job.work
        data |= {f"low-{job.key}": low, f"likely-{job.key}": likely, f"high-{job.key}": high}
        data |= {f"title-{job.key}": title if job is READ else job.title}
        data |= {f"parts-{job.key}": list(job.parts)} if job.parts else {}
    return data


def put(cast, car):
    return putting.put(RECIPE, car, by=cast.helper, at=NOW, leave_out=OTHERS)["before"]


@pytest.mark.parametrize(
    ("title", "by_hand"),
    [
        *((READ.title, False), (f"{READ.title}, left".upper(), False), (f"Front: {READ.title} 2", False)),
        *((RODS, True), (f"{READ.title}, then the tie rods", True), ("Whatever", True), ("Read the car", True)),
    ],
)
def test_its_own_words_are_told_from_others(title, by_hand):
    row = as_called(READ.__class__(READ.key, title, READ.work, measures=READ.measures), READ)
    assert row.by_hand is by_hand


@pytest.mark.parametrize(
    ("title", "kinds"), [(RODS, ["steering_arm", "joint_opened", "jam_nut"]), ("Whatever it is", [])]
)
def test_put_on_under_another_name_it_is_asked(cast, car, title, kinds):
    helper = cast.client("helper")
    helper.press(f"/recipes/{RECIPE.key}/put/", sent(car, title))
    job = Job.objects.get(title=title)
    assert (job.recipe, job.kinds, job.kinds_likely) == ("", kinds, True)
    with pytest.raises(Refused, match="Tick what was opened"):
        steps.finish(job, by=cast.helper, at=NOW)
    assert helper.press(f"/jobs/{job.pk}/finish/", {}).status_code == 422


def test_put_on_under_its_own_name_it_is_trusted(cast, car):
    cast.client("helper").press(f"/recipes/{RECIPE.key}/put/", sent(car, READ.title))
    job = Job.objects.get(title=READ.title)
    assert (job.recipe, job.kinds, job.kinds_likely) == (RECIPE.key, [], False)
    steps.finish(job, by=cast.helper, at=NOW)


@pytest.mark.parametrize("title", [RODS, "Whatever it is"])
def test_called_otherwise_on_the_car_it_is_asked(cast, car, title):
    job = put(cast, car)
    told = {"work": READ.work, "systems": job.systems, "rank": "", "lowered_because": "", "stations": {}}
    jobs.change(job, by=cast.helper, at=NOW, title=title, left_minutes=None, **told)
    job = Job.objects.get(pk=job.pk)
    assert (job.recipe, job.kinds_likely, "steering_arm" in job.kinds) == ("", True, title == RODS)
    with pytest.raises(Refused, match="Tick what was opened"):
        steps.finish(job, by=cast.helper, at=NOW)


def test_by_the_form_it_is_for_safety_by_its_words(cast, car):
    job, helper = put(cast, car), cast.client("helper")
    form = helper.get(f"/jobs/{job.pk}/edit/").context["form"]
    data = {name: form[name].value() for name in form.fields}
    data = {name: value for name, value in data.items() if value not in ("", [], None, False)}
    data.pop("stations", None)
    helper.press(f"/jobs/{job.pk}/edit/", {**data, "title": RODS})
    job.refresh_from_db()
    assert (job.title, job.recipe, job.rank, job.kinds_likely) == (RODS, "", "safety", True)
