"""Recipes: listed, put onto a car in one action, kept as the garage's own and given back."""

import pytest

from builds.recipes.engine.parse import load_shipped
from builds.recipes.models import OwnRecipe
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job, JobStation
from builds.work.models.link import Link, StationHold
from garage.models import Skill, Station
from tests.conftest import queries
from tests.factories import MembershipFactory, SkillFactory, StationFactory, VehicleFactory

pytestmark = pytest.mark.usefixtures("now")
KEY = "steering-arm-rework"
ARM = next(recipe for recipe in load_shipped() if recipe.key == KEY)


@pytest.fixture
def car(cast):
    return VehicleFactory(garage=cast.garage, name="Heron")


def drawn(client, path, **changes):
    """What the form sends when it is sent as drawn, with some fields changed; None unticks."""
    form = client.get(path).context["form"]
    data = {field.html_name: field.value() for field in form}
    data = {name: "on" if value is True else value for name, value in data.items()}
    return {name: value for name, value in {**data, **changes}.items() if value not in (None, False)}


def put(client, car, **changes):
    path = f"/recipes/{KEY}/put/"
    return client.press(path, drawn(client, path, vehicle=car.pk, **changes))


@pytest.mark.once
@pytest.mark.parametrize("recipe", load_shipped(), ids=lambda recipe: recipe.key)
def test_every_recipe_goes_onto_a_car_whole(owner, cast, car, recipe):
    path = f"/recipes/{recipe.key}/put/"
    answer = owner.press(path, drawn(owner, path, vehicle=car.pk))
    assert answer.status_code == 303 and answer["Location"] == f"/cars/{car.pk}/"
    jobs = {job.title: job for job in Job.objects.all()}
    titles = {row.key: row.title for row in recipe.jobs}
    assert set(jobs) == {row.title for row in recipe.jobs}
    assert len({job.batch for job in jobs.values()}) == 1
    for row in recipe.jobs:
        job = jobs[row.title]
        assert (job.low_minutes, job.likely_minutes, job.high_minutes) == row.work
        assert (job.systems, job.kinds) == (list(row.systems), list(row.kinds))
        assert (job.hands, job.splits, job.recipe) == (row.hands, row.splits, recipe.key)
        assert (job.skill.slug if job.skill else None) == row.skill
        assert {use.station.slug: use.units for use in job.uses.all()} == dict(row.stations)
        assert sorted(point.what for point in job.hold_points.all()) == sorted(row.hold_points)
        assert {
            (link.before.title, link.wait_minutes, link.why, link.cure or None)
            for link in Link.objects.by_hand().filter(after=job)
        } == {(titles[link.job], link.wait_minutes, link.why, link.cure) for link in row.after}
    assert StationHold.objects.count() == len(recipe.station_holds)
    assert owner.get(f"/jobs/{jobs[recipe.jobs[0].title].pk}/").status_code == 200
    assert owner.get(f"/recipes/{recipe.key}/").status_code == 200


def test_safety_follows_the_systems(owner, car):
    put(owner, car)
    assert Job.objects.get(title="Weld the arm").rank == "safety"
    assert Job.objects.get(title="Measure the earths after welding").rank == "needed"


def test_skills_and_stations_that_are_there_are_used(owner, cast, car):
    weld = SkillFactory(garage=cast.garage, slug="weld", name="Own welder")
    bay = StationFactory(garage=cast.garage, slug="bay", name="Own bay")
    put(owner, car)
    assert Job.objects.get(title="Weld the arm").skill == weld
    assert JobStation.objects.filter(station=bay).exists()
    assert Skill.objects.filter(garage=cast.garage, slug="weld").count() == 1
    assert Station.objects.filter(garage=cast.garage, slug="bay").count() == 1


def test_skills_that_nobody_has_are_said(owner, cast, car):
    person = MembershipFactory(garage=cast.garage)
    for slug in ("fit", "paint", "align", "wire"):
        person.skills.add(SkillFactory(garage=cast.garage, slug=slug))
    answer = put(owner, car, next="/people/")
    said = [str(each) for each in owner.get("/people/").context["messages"]]
    assert answer.status_code == 303
    wanted = "2 parts are wanted for this work: say which are here."
    assert said == [f"18 jobs are new on Heron. {wanted} Nobody here has the skill yet: Welding."]


def test_jobs_left_out_keep_the_order_and_the_waits_of_the_rest(owner, car):
    put(owner, car, **{"take-clean": None, "take-topcoat": None})
    assert Job.objects.count() == 16
    links = {(link.before.title, link.after.title): link for link in Link.objects.all()}
    cure = links["Prime the arm", "Refit the arm with new nuts and pins"]
    assert (cure.wait_minutes, cure.cure) == (960, "epoxy-primer")
    assert ("Inspect the weld and crack-test it", "Prime the arm") in links


def test_titles_and_figures_are_changed_for_this_time(owner, car):
    put(
        owner,
        car,
        **{
            "title-weld": "Weld the left arm",
            "likely-weld": "2 h",
            "low-weld": "",
            "high-weld": "",
        },
    )
    job = Job.objects.get(title="Weld the left arm")
    assert (job.low_minutes, job.likely_minutes, job.high_minutes) == (90, 120, 180)
    assert not OwnRecipe.objects.exists()


def test_wrong_figures_are_said_at_the_field_and_nothing_is_half_put(owner, car):
    answer = put(owner, car, **{"low-weld": "3 h", "title-prime": "Prime it thick"})
    assert answer.status_code == 422
    assert answer.context["form"].errors["low-weld"] == ["If it goes well it takes no longer than the likely 1 h 15."]
    assert "Prime it thick" in answer.content.decode()
    assert not Job.objects.exists() and not Skill.objects.exists()


def test_nothing_ticked_is_refused(owner, car):
    answer = put(owner, car, **{f"take-{job.key}": None for job in ARM.jobs})
    assert answer.context["form"].errors["__all__"] == ["Tick at least one job of the recipe."]


def test_another_garages_car_is_refused(owner, cast):
    theirs = VehicleFactory(garage=cast.stranger.garage)
    answer = put(owner, theirs)
    assert answer.context["form"].errors["vehicle"] == ["That is not in this garage: choose from the list."]
    assert not Job.objects.exists()


def test_a_double_tap_puts_it_on_once(owner, car):
    path = f"/recipes/{KEY}/put/"
    data = drawn(owner, path, vehicle=car.pk, key="7f1d3a52-7f0b-4c0e-9d6b-0a2f6f2d3c11")
    for _ in range(2):
        assert owner.post(path, data).status_code == 303
    assert Job.objects.count() == 18
    assert HoldPoint.objects.count() == sum(len(job.hold_points) for job in ARM.jobs)


def test_the_only_car_is_chosen_where_nobody_said_which(owner, cast, car):
    form = owner.get("/recipes/brake-overhaul/put/").context["form"]
    assert form["vehicle"].value() == car.pk
    VehicleFactory(garage=cast.garage)
    assert owner.get("/recipes/brake-overhaul/put/").context["form"]["vehicle"].value() is None


def test_the_car_one_came_from_is_chosen(owner, car):
    form = owner.get(f"/recipes/{KEY}/put/?car={car.pk}").context["form"]
    assert form["vehicle"].value() == car.pk
    for strange in ("x", "9" * 40, "0"):
        assert owner.get(f"/recipes/{KEY}/put/?car={strange}").status_code == 200


def test_ones_own_copy_is_what_is_put_on_from_then_on(owner, car):
    path = f"/recipes/{KEY}/edit/"
    changes = {
        "recipe_title": "Our arm",
        "title-weld": "Weld it our way",
        "likely-weld": "3 h",
        "high-weld": "",
        "skill-weld": "",
        "station-weld": "driveway",
        "wait-topcoat-prime": "24 h",
        "take-bump-steer": None,
    }
    assert owner.press(path, drawn(owner, path, **changes)).status_code == 303
    assert "Our arm" in owner.get("/recipes/").content.decode()
    put(owner, car)
    job = Job.objects.get(title="Weld it our way")
    assert (job.likely_minutes, job.skill) == (180, None)
    assert [use.station.slug for use in job.uses.all()] == ["driveway"]
    cure = Link.objects.get(after__title="Paint the arm")
    assert (cure.wait_minutes, cure.cure) == (1440, "")
    assert Job.objects.count() == 17


def test_sending_the_own_copy_back_as_drawn_changes_nothing(owner):
    path = f"/recipes/{KEY}/edit/"
    owner.press(path, drawn(owner, path))
    known = owner.get(f"/recipes/{KEY}/").context["known"]
    assert known.own and known.recipe == ARM


def test_back_to_how_it_came(owner):
    path = f"/recipes/{KEY}/edit/"
    owner.press(path, drawn(owner, path, recipe_title="Our arm"))
    owner.press(f"/recipes/{KEY}/reset/")
    assert not OwnRecipe.objects.exists()
    assert owner.get(f"/recipes/{KEY}/").context["known"].recipe == ARM
    owner.get("/people/")  # shows what was said
    assert "Our arm" not in owner.get("/recipes/").content.decode()


def test_a_copy_that_cannot_be_read_does_not_take_the_page_down(owner, cast, now):
    OwnRecipe.objects.create(garage=cast.garage, key=KEY, body={"key": KEY}, changed_at=now)
    page = owner.get(f"/recipes/{KEY}/")
    assert page.context["known"].recipe == ARM
    assert "title is missing" in page.content.decode()
    assert owner.get("/recipes/").status_code == 200


def test_copies_are_ones_own(owner, stranger):
    path = f"/recipes/{KEY}/edit/"
    owner.press(path, drawn(owner, path, recipe_title="<b>Ours</b>"))
    assert "&lt;b&gt;Ours" in owner.get("/recipes/").content.decode()
    assert "Ours" not in stranger.get("/recipes/").content.decode()


def test_who_may(cast, car):
    read = {"owner": 200, "helper": 200, "viewer": 200, "stranger": 200, "nobody": 302}
    works = {"owner": 200, "helper": 200, "viewer": 403, "stranger": 200, "nobody": 302}
    owns = {"owner": 200, "helper": 403, "viewer": 403, "stranger": 200, "nobody": 302}
    for who in read:
        client = cast.client(who)
        assert client.get("/recipes/").status_code == read[who]
        assert client.get(f"/recipes/{KEY}/").status_code == read[who]
        assert client.get(f"/recipes/{KEY}/put/").status_code == works[who]
        assert client.get(f"/recipes/{KEY}/edit/").status_code == owns[who]
    assert cast.client("owner").get("/recipes/nothing-such/").status_code == 404


def test_the_list_takes_as_many_queries_for_own_copies_as_without(owner, cast, now):
    before = queries(owner, "/recipes/")
    for recipe in load_shipped()[:5]:
        path = f"/recipes/{recipe.key}/edit/"
        owner.press(path, drawn(owner, path))
    assert queries(owner, "/recipes/") == before


def test_each_job_of_a_recipe_is_a_line_that_says_what_it_holds(owner):
    page = owner.get(f"/recipes/{KEY}/")
    counts = {line.key: line.counts for line in page.context["view"].jobs}
    assert counts["refit"] == ("2 hold points", "5 readings", "1 part")
    assert counts["lock-check"] == ("2 people", "1 hold point", "6 readings")
    assert page.content.decode().count('<details class="fold"') >= len(ARM.jobs)
