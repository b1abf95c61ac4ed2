"""What a recipe eats: suggested on its jobs, asked for with one tap, found on the shelf by name."""

import pytest

from builds.needs.pages.eats import suggested
from builds.recipes.actions.own import keep_own
from builds.recipes.actions.putting import put
from builds.recipes.engine.parse import from_dict, load_shipped
from builds.recipes.facts import known_recipe
from builds.work.models.job import Job
from builds.work.models.need import Need
from tests.factories import NOW, VehicleFactory
from tests.parts.factories import PartFactory

pytestmark = pytest.mark.usefixtures("now")
RECIPE = {
    "key": "bleed", "title": "Bleed the brakes", "summary": "Bled until clear.",
    "jobs": [{"key": "bleed", "title": "Bleed", "work": [30, 45, 90], "systems": ["brakes"],
              "eats": ["1000 ml brake fluid", "4 crush washers"]}],
}  # fmt: skip


@pytest.fixture
def job(cast) -> Job:
    car = VehicleFactory(garage=cast.garage)
    return put(from_dict(RECIPE), car, by=cast.owner, at=NOW)["bleed"]


def left_of(job):
    return suggested(job, Need.objects.of(job).with_ends())


def take(client, job, line):
    return client.press(f"/jobs/{job.pk}/needs/take/", {"line": line})


def test_the_shelfs_own_is_found_by_its_name_and_unit(helper, cast, job):
    fluid = PartFactory(garage=cast.garage, name="Brake fluid, class 4", unit="ml")
    PartFactory(garage=cast.garage, name="Brake fluid tester")
    assert "1000 ml of brake fluid" in helper.get(f"/jobs/{job.pk}/").content.decode()
    assert take(helper, job, "1000 ml brake fluid").status_code == 303
    need = Need.objects.get()
    assert (need.part, need.quantity) == (fluid, 1000)
    assert [each.line for each in left_of(job)] == ["4 crush washers"]


def test_what_the_shelf_lacks_is_asked_for_in_words(helper, job):
    take(helper, job, "4 crush washers")
    need = Need.objects.get()
    assert (need.part, need.what, need.quantity) == (None, "crush washers, 4 pieces", 1)
    assert [each.line for each in left_of(job)] == ["1000 ml brake fluid"]


def test_two_that_could_be_meant_are_left_to_the_hand(cast, job):
    for name in ("Crush washer M10", "Crush washer M12"):
        PartFactory(garage=cast.garage, name=name)
    assert left_of(job)[1].part is None


def test_a_tap_for_what_is_not_eaten_or_asked_already_writes_nothing(helper, job):
    for line in ("3 wishes", "", "4 crush washers", "4 crush washers"):
        assert take(helper, job, line).status_code == 303
    assert Need.objects.count() == 1


def test_who_looks_on_takes_nothing(viewer, job):
    assert take(viewer, job, "4 crush washers").status_code == 403
    assert "Put it on the list" not in viewer.get(f"/jobs/{job.pk}/").content.decode()


def test_a_garages_own_copy_keeps_what_it_eats(cast):
    keep_own(cast.garage, from_dict(RECIPE), at=NOW)
    kept = known_recipe(cast.garage, "bleed").recipe
    assert kept.jobs[0].eats == ("1000 ml brake fluid", "4 crush washers")


def test_shipped_recipes_eat_something_and_say_how_much():
    lines = [line for recipe in load_shipped() for job in recipe.jobs for line in job.eats]
    assert "1000 ml brake fluid" in lines and len(lines) > 20
