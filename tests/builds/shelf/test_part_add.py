"""A part written down in one form: what, where, how many, for which job, onto which car."""

import pytest

from builds.work.models.need import Need
from parts.actions.snapshot import faults
from parts.models import Balance, Move, Part, Place
from tests.factories import JobFactory
from tests.parts.factories import PlaceFactory

pytestmark = pytest.mark.usefixtures("now")
FORM = {"name": "Front hubs", "condition": "good", "unit": "piece", "systems": ["wheels"], "quantity": "1"}


def held():
    rows = Balance.objects.filter(outside=False, quantity__gt=0).select_related("part", "place")
    return {(row.part.name, row.place.name): row.quantity for row in rows}


def test_written_down_and_then_asked_where_it_lies(owner, cast):
    answer = owner.press("/parts/add/", {**FORM, "cost_minor": "84,50", "low_level": "2"})
    part = Part.objects.get()
    assert answer["Location"] == f"/parts/{part.pk}/move/receive/"
    assert (part.garage, part.systems, part.cost_minor) == (cast.garage, ["wheels"], 8450)
    assert len(part.code) == 10


@pytest.mark.parametrize(
    ("field", "more", "sentence"),
    [
        ("name", {"name": ""}, "This field is required."),
        ("name", {"name": "x" * 121}, "Ensure this value has at most 120 characters (it has 121)."),
        ("condition", {"condition": "fine"}, "Select a valid choice."),
        ("systems", {"systems": ["wings"]}, "Select a valid choice."),
        ("cost_minor", {"cost_minor": "-3"}, "Write an amount such as 12 or 12.50."),
        ("unit", {"single": "on", "unit": "ml"}, "One of a kind is counted in pieces."),
        (
            "one_use",
            {"single": "on", "one_use": "on"},
            "What has a history of its own is used more than once.",
        ),
    ],
)
def test_what_is_wrong_is_said_at_its_field(owner, field, more, sentence):
    answer = owner.press("/parts/add/", {**FORM, **more})
    assert answer.status_code == 422
    assert answer.context["form"].errors[field][0].startswith(sentence)
    assert not Part.objects.exists()


def test_where_how_many_and_for_which_job_are_said_in_the_same_form(owner, cast, shop):
    job = JobFactory(vehicle=shop.heron, title="Fit the hubs")
    answer = owner.press("/parts/add/", {**FORM, "quantity": "2", "target": shop.bin.pk, "job": job.pk})
    part = Part.objects.latest("pk")
    assert answer["Location"] == f"/parts/{part.pk}/"
    assert held() == {("Front hubs", "Bin 1"): 2}
    need = Need.objects.get()
    assert (need.job, need.part, need.what, need.quantity) == (job, part, "Front hubs", 2)
    assert "“Fit the hubs” wants it." in owner.get(answer["Location"]).content.decode()
    assert faults() == []


def test_a_new_place_is_typed_in_and_one_that_is_called_so_is_taken(owner, cast):
    owner.press("/parts/add/", {**FORM, "new_place": "Rafter"})
    rafter = Place.objects.get(name="Rafter")
    assert (rafter.kind, held()) == ("shelf", {("Front hubs", "Rafter"): 1})
    owner.press("/parts/add/", {**FORM, "name": "Springs", "quantity": "4", "new_place": "rafter"})
    assert held() == {("Front hubs", "Rafter"): 1, ("Springs", "Rafter"): 4}
    assert Place.objects.filter(kind="shelf").count() == 1


def test_for_a_job_and_nowhere_yet_it_is_wanted(owner, cast, shop):
    job = JobFactory(vehicle=shop.heron)
    answer = owner.press("/parts/add/", {**FORM, "job": job.pk})
    assert answer["Location"] == f"/parts/{Part.objects.latest('pk').pk}/"
    assert Need.objects.get().job == job and held() == {}


def test_onto_a_car_leads_to_what_fitting_asks_with_all_of_it_filled_in(owner, cast, shop):
    job = JobFactory(vehicle=shop.heron, systems=["wheels"])
    answer = owner.press("/parts/add/", {**FORM, "quantity": "2", "car": shop.heron.pk, "job": job.pk})
    assert held() == {("Front hubs", "the bench"): 2}
    form = owner.get(answer["Location"]).context["form"]
    drawn = {name: str(form[name].value()) for name in ("quantity", "source", "car", "job")}
    bench = Place.objects.get(kind="bench")
    assert drawn == {"quantity": "2", "source": str(bench.pk), "car": str(shop.heron.pk), "job": str(job.pk)}
    owner.press(answer["Location"].partition("?")[0], drawn)
    assert held() == {("Front hubs", "Heron"): 2}
    assert Move.objects.latest("pk").verb == "fit"


@pytest.mark.parametrize(
    ("field", "more", "sentence"),
    [
        ("new_place", {"new_place": "Rafter", "target": True}, "Choose a place or write a new one, not both."),
        ("quantity", {"single": "on", "quantity": "2"}, "One of a kind is one."),
        ("quantity", {"quantity": "0"}, "Ensure this value is greater than or equal to 1."),
        ("car", {"car": True, "job": True}, "is a job on Heron."),
    ],
)
def test_what_does_not_go_together_is_said_at_its_field(owner, cast, shop, field, more, sentence):
    rows = {"target": shop.bin, "car": shop.badger, "job": JobFactory(vehicle=shop.heron)}
    known = Part.objects.count()
    sent = {name: rows[name].pk if said is True else said for name, said in more.items()}
    answer = owner.press("/parts/add/", {**FORM, **sent})
    assert answer.status_code == 422 and sentence in answer.context["form"].errors[field][0]
    assert answer.context["form"]["name"].value() == "Front hubs"
    assert Part.objects.count() == known


def test_places_cars_and_jobs_of_other_garages_are_not_offered(owner, cast, stranger):
    foreign = PlaceFactory(garage=cast.stranger.garage, name="Secret shelf")
    job = JobFactory(vehicle__garage=cast.stranger.garage, title="Secret job")
    page = owner.get("/parts/add/").content.decode()
    assert "Secret" not in page
    answer = owner.press("/parts/add/", {**FORM, "target": foreign.pk, "job": job.pk})
    assert set(answer.context["form"].errors) == {"target", "job"}
