"""Work in somebody's own words that the car has already is offered as one, and never taken for it unasked."""

from html import unescape

import pytest

from builds.recipes.actions import putting as recipes
from builds.recipes.engine.alike import TypedWork, alike
from builds.recipes.engine.parse import load_shipped
from builds.steps.actions import jobs
from builds.steps.engine.by_words import job_said
from builds.work.models.job import Job
from builds.work.models.link import Link
from tests.builds.recipes.test_recipes import drawn
from tests.factories import NOW, VehicleFactory

RECIPES = {recipe.key: recipe for recipe in load_shipped()}
BRAKES = RECIPES["brake-overhaul"]


@pytest.fixture
def car(cast, now):
    return VehicleFactory(garage=cast.garage, name="Heron")


def best(title):
    """The title of the recipes' job that is likely the same work, the most alike first."""
    said = job_said(title)
    typed = TypedWork(title, said.kinds, said.measures)
    rows = [job for recipe in RECIPES.values() for job in recipe.jobs]
    row = max(rows, key=lambda row: alike(typed, TypedWork(row.title, row.kinds, row.measures)))
    return row.title if alike(typed, TypedWork(row.title, row.kinds, row.measures)) else ""


@pytest.mark.parametrize(("typed", "row"), [
    ("Bleed brakes", "Bleed the brakes and check for leaks"), ("Harness out", "Take the harness and the seat out"),
    ("New tyres", "Fit and balance the tyres"), ("Fit the new seat", "Set the seat and torque it down"),
    ("New front pads", "Fit discs, pads and calipers"), ("Shake it down", "Shake it down and look again"),
    ("Swap rear dampers", "Refit the dampers with new nuts"), ("Fit harness", "Fit the harness with the driver aboard"),
    ("Engine out", "Lift the engine out"), ("New brake hoses", "Replace the flexible hoses"),
    # Other work on the same thing, and looks at it, are none.
    ("New springs", ""), ("Weld the sill", ""), ("Check belts", ""), ("Loom out", ""), ("Tyre gauge", ""),
    ("Master cylinder", ""), ("Coolant flush", ""),
])  # fmt: skip
def test_the_same_work_is_known_by_what_it_names_and_does(typed, row):
    assert best(typed) == row


def test_nor_is_that_of_another_end_or_another_way():
    pads = TypedWork("Pads, rear", ("friction_parts",))
    assert alike(TypedWork("New rear pads", ("wheel_off", "friction_parts")), pads)
    assert not alike(TypedWork("New front pads", ("wheel_off", "friction_parts")), pads)
    seat = ("seat_work", "seat_or_belt_moved")
    assert not alike(TypedWork("Seat out", seat), TypedWork("Fit the seat", seat))


LINES = "New front pads\nBleed brakes\nFit the splitter"


def paste(client, car, **more):
    return client.press(f"/cars/{car.pk}/jobs/paste/", {"lines": LINES, **more})


def test_a_pasted_list_asks_which_lines_are_done_by_what_is_there(owner, cast, car):
    recipes.put(BRAKES, car, by=cast.owner, at=NOW)
    count = Job.objects.count()
    asked = " ".join(unescape(paste(owner, car).content.decode()).split())
    assert (
        "Once for both?" in asked
        and "Save the list" in asked
        and " new</h2>" not in asked
        and Job.objects.count() == count
    )
    assert "“New front pads” is done by “Fit discs, pads and calipers”, which is on Heron already" in asked
    assert (
        "“Bleed brakes” is done by “Bleed the brakes and check for leaks”" in asked
        and "“Fit the splitter” is" not in asked
    )
    paste(owner, car, step="save", once=["New front pads", "Fit the splitter"])
    new = set(Job.objects.order_by("-pk").values_list("title", flat=True)[: Job.objects.count() - count])
    assert new == {"Bleed brakes", "Fit the splitter"}  # unticked, and never offered
    assert "It does for “New front pads” too." in Job.objects.get(title="Fit discs, pads and calipers").note


def test_a_job_written_down_by_itself_is_asked_too(owner, cast, car):
    recipes.put(BRAKES, car, by=cast.owner, at=NOW)
    sent = {"title": "Bleed brakes", "vehicle": car.pk, "likely": "1:00", "hands": 1, "weight": 1, "splits": "on"}
    asked = owner.press(f"/cars/{car.pk}/jobs/add/", sent)
    said = "“Bleed the brakes and check for leaks” is on Heron already and is likely the same work."
    assert asked.status_code == 422 and said in asked.content.decode()
    assert not Job.objects.filter(title="Bleed brakes").exists()
    assert owner.press(f"/cars/{car.pk}/jobs/add/", {**sent, "once_more": "on"}).status_code == 303


class TestTheRecipeComesLater:
    @pytest.fixture
    def bleed(self, cast, car):
        said = job_said("Bleed brakes")
        told = {"systems": ["brakes"], "kinds": list(said.kinds), "measures": list(said.measures)}
        return jobs.add(car, by=cast.owner, at=NOW, title="Bleed brakes", work=(10, 20, 30), **told)

    def test_its_form_offers_them_as_one(self, owner, car, bleed):
        path = f"/recipes/brake-overhaul/put/?car={car.pk}"
        assert "“Bleed brakes” is on the car already and is likely the same work." in owner.get(path).content.decode()
        owner.press("/recipes/brake-overhaul/put/", drawn(owner, path))
        assert Job.objects.exclude(recipe__endswith="again").count() == len(BRAKES.jobs)
        bleed.refresh_from_db()
        assert (bleed.hands, bleed.likely_minutes) == (2, 60) and "pedal_travel" in bleed.measures
        assert Link.objects.by_hand().filter(after=bleed, before__title="Fit discs, pads and calipers").exists()

    def test_unticked_or_never_seen_they_are_two(self, owner, cast, car, bleed):
        path = f"/recipes/brake-overhaul/put/?car={car.pk}"
        data = drawn(owner, path, **{"one-bleed": None})
        owner.press("/recipes/brake-overhaul/put/", data)
        assert Job.objects.exclude(recipe__endswith="again").count() == len(BRAKES.jobs) + 1

    def test_with_several_nobody_was_asked(self, owner, car, bleed):
        owner.press("/recipes/several/", {"vehicle": car.pk, "recipes": ["brake-overhaul"]})
        assert Job.objects.exclude(recipe__endswith="again").count() == len(BRAKES.jobs) + 1
