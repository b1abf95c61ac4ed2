"""What a recipe's jobs are fitted with is asked of the shelf as it is put on, and the plan waits for it."""

from importlib import import_module
from pathlib import Path
from types import SimpleNamespace

import pytest
from django.apps import apps
from django.db import connection

from builds import migrations
from builds.needs.actions import needs
from builds.needs.facts.wants import wants_of
from builds.plan.actions.follow import make_plan
from builds.plan.engine.ids import pk_of
from builds.plan.facts.stored import read
from builds.recipes.actions import putting as recipes
from builds.recipes.actions.wanted import DAYS_TO_COME
from builds.recipes.engine.parse import from_dict, load_shipped
from builds.recipes.engine.recipe import to_dict
from builds.recipes.models import OwnRecipe
from builds.verdict.facts.verdict import verdict_of
from builds.work.facts.work import load_work
from builds.work.models.job import Job
from builds.work.models.need import Need
from garage.actions import garages
from garage.models import Skill
from parts.actions import stock
from parts.actions.places import house_place
from tests.builds.plan.plan_kit import evenings
from tests.factories import NOW, VehicleFactory
from tests.parts.factories import PartFactory, PlaceFactory

pytestmark = pytest.mark.usefixtures("now")
BEARING = next(recipe for recipe in load_shipped() if recipe.key == "wheel-bearing-studs")
FILES = [(recipe, job) for recipe in load_shipped() for job in recipe.jobs]


@pytest.fixture
def car(cast):
    return VehicleFactory(garage=cast.garage, name="Mule")


def put(cast, car, **more):
    return recipes.put(BEARING, car, by=cast.owner, at=NOW, **more)


def wanted(job) -> dict[str, int]:
    return {need.what: need.quantity for need in Need.objects.of(job)}


def test_its_parts_are_needs_of_its_jobs_and_its_drawer_is_not(cast, car):
    made = put(cast, car)
    assert wanted(made["bearing"]) == {"wheel bearing": 1, "bearing circlip": 1, "set of hub seals": 1}
    assert wanted(made["studs"]) == {"wheel studs": 5, "wheel nuts with the right seat": 5}
    assert wanted(made["refit"]) == {"hub nut": 1}
    assert "From the drawer: new split pins, new self-locking nuts." in made["refit"].note
    assert "wheel bearing" not in made["bearing"].note


def test_the_line_of_the_shelf_that_is_called_so_answers_it(cast, car):
    nut = PartFactory(garage=cast.garage, name="Hub nut")
    PartFactory(garage=cast.garage, name="Wheel bearing kit, front")
    supplier, bin_ = house_place(cast.garage, "supplier"), PlaceFactory(garage=cast.garage)
    stock.move(nut, "receive", 2, supplier, bin_, by=cast.owner, at=NOW)
    made = put(cast, car)
    assert Need.objects.get(what="hub nut").part == nut
    assert Need.objects.get(what="wheel bearing").part is None  # a kind of it, for who knows which car
    standing = wants_of(load_work(cast.garage, NOW))
    states = {need.what: standing.standing[need.pk].state for need in standing.needs}
    assert states["hub nut"] == "shelf" and states["wheel bearing"] == "find"
    assert made["bearing"].needs.count() == 3


def test_what_a_job_of_the_car_serves_for_twice_is_asked_for_once(cast, car):
    first = put(cast, car)
    again = put(cast, car, one_for_all=first)
    assert again == first
    assert Need.objects.count() == 6
    Need.objects.filter(what="wheel studs").update(quantity=2)
    put(cast, car, one_for_all=first)
    assert Need.objects.get(what="wheel studs").quantity == 5


def test_the_pages_say_what_is_missing_and_one_tap_strikes_it_out(owner, cast, car):
    made = put(cast, car)
    page = f"/jobs/{made['bearing'].pk}/"
    shown_first, to_buy = owner.get(page).content.decode(), owner.get("/wants/").content.decode()
    assert "None is written down" not in shown_first
    for what in ("wheel bearing", "bearing circlip", "set of hub seals"):
        assert what in shown_first and what in to_buy
    assert "Not needed" in shown_first and "are guesses" in shown_first
    circlip = Need.objects.get(what="bearing circlip")
    assert owner.press(f"/needs/{circlip.pk}/delete/").status_code == 303
    owner.get(page)  # the message is read
    assert "bearing circlip" not in owner.get("/wants/").content.decode()


def test_the_form_that_puts_it_on_leaves_out_what_lies_in_the_drawer(owner, car):
    path = f"/recipes/{BEARING.key}/put/?car={car.pk}"
    form = owner.get(path).context["form"]
    assert form["parts-studs"].value() == ["5 wheel studs", "5 wheel nuts with the right seat"]
    data = {name: form[name].value() for name in form.fields if form[name].value() not in (None, False)}
    owner.press(path, {**data, "vehicle": car.pk, "parts-studs": ["5 wheel studs"], "parts-refit": []})
    assert sorted(Need.objects.values_list("what", flat=True)) == [
        "bearing circlip", "set of hub seals", "wheel bearing", "wheel studs"]  # fmt: skip


def test_the_plan_takes_their_days_from_today_until_they_are_here(cast, car):
    garages.furnish(cast.garage)
    cast.owner.skills.set(Skill.objects.in_garage(cast.garage))
    evenings(cast.owner, range(7), 17, 23)
    made = put(cast, car)
    days = days_begun(cast.garage)
    assert days(made["strip"]) == 0 and days(made["bearing"]) >= DAYS_TO_COME
    for need in Need.objects.open():
        needs.got(need, by=cast.owner, at=NOW)
    assert days_begun(cast.garage)(made["bearing"]) < DAYS_TO_COME


def days_begun(garage):
    """Of a job, in how many days from now the plan begins it."""
    plan = read(make_plan(garage, at=NOW), garage)
    starts = {pk_of(placed.id): plan.clock.moment(placed.start) for placed in plan.placed.values()}
    return lambda job: (starts[job.pk].date() - NOW.date()).days


def test_what_was_never_fitted_stands_in_the_verdict_only_of_work_that_is_over(cast, car):
    made = put(cast, car)
    said = [reason.sentence for reason in verdict_of(car, NOW).reasons]
    assert not any("never fitted" in sentence for sentence in said)
    Job.objects.filter(pk=made["studs"].pk).update(state="done")
    said = [reason.sentence for reason in verdict_of(car, NOW).reasons]
    assert "“Fit the wheel studs” is done, but never fitted: wheel studs." in said


def test_a_garages_own_copy_of_before_has_its_drawer_too(cast):
    body = to_dict(BEARING)
    jobs = {job["key"]: job for job in body["jobs"]}
    jobs["refit"] |= {"parts": ["new hub nut", "new split pins"]}
    del jobs["refit"]["drawer"]
    kept = OwnRecipe.objects.create(garage=cast.garage, key=BEARING.key, body=body, changed_at=NOW)
    (file,) = Path(migrations.__file__).parent.glob("*_parts_and_drawer.py")
    import_module(f"builds.migrations.{file.stem}").part(apps, SimpleNamespace(connection=connection))
    kept.refresh_from_db()
    refit = next(job for job in from_dict(kept.body).jobs if job.key == "refit")
    assert (refit.parts, refit.drawer) == (("new hub nut",), ("new split pins",))


def test_every_recipe_says_which_parts_are_bought_and_none_is_both():
    asked = [line for _, job in FILES for line in job.parts]
    assert len(asked) > 50
    for recipe, job in FILES:
        assert not set(job.parts) & set(job.drawer), (recipe.key, job.key)
        assert len(job.parts) <= 4, f"{recipe.key}, {job.key}: too many to buy for one job"
        for line in job.parts:
            assert not any(word in line for word in ("split pin", "self-locking", "grease", "tape", " if ", "where"))
