"""Places: added, renamed, read with what is in them; a car's place is the car's."""

import pytest

from parts.actions import stock
from parts.actions.places import car_place, house_place
from parts.models import Place
from tests.conftest import queries
from tests.factories import NOW, VehicleFactory
from tests.parts.factories import PartFactory, PlaceFactory

pytestmark = pytest.mark.usefixtures("now")
FORM = {"kind": "bin", "name": "Bin 7", "walk_order": "40"}


def test_added_and_read(owner, cast):
    answer = owner.press("/places/add/", FORM)
    spot = Place.objects.get(garage=cast.garage)
    assert answer["Location"] == "/places/"
    assert (spot.kind, spot.name, spot.walk_order) == ("bin", "Bin 7", 40)
    assert spot.code in owner.get(f"/places/{spot.pk}/").content.decode()


@pytest.mark.parametrize(
    ("asked", "back"),
    [("/parts/7/receive/?job=3", "/parts/7/receive/?job=3"), ("https://elsewhere.example/", "/places/")],
)
def test_whoever_came_from_a_part_goes_back_to_it(owner, cast, asked, back):
    page = owner.get("/places/add/", {"next": asked})
    assert page.context["here"] == back
    assert owner.press("/places/add/", {**FORM, "name": "", "next": asked}).context["here"] == back
    assert owner.press("/places/add/", {**FORM, "next": asked})["Location"] == back


def test_a_second_of_the_same_name_is_refused_at_the_name(owner, cast):
    spot = PlaceFactory(garage=cast.garage, kind="bin", name="Bin 7")
    other = PlaceFactory(garage=cast.garage, kind="bin", name="Bin 8")
    for path in ("/places/add/", f"/places/{other.pk}/edit/"):
        answer = owner.press(path, {**FORM, "name": "bin 7"})
        assert answer.status_code == 422
        assert answer.context["form"].errors["name"] == ["There is a bin 7 already."]
    assert owner.press(f"/places/{spot.pk}/edit/", {**FORM, "name": "BIN 7"}).status_code == 303


@pytest.mark.parametrize(
    ("field", "value"),
    [("name", ""), ("name", "x" * 61), ("walk_order", "-1"), ("walk_order", "10000"),
     ("kind", "scrap"), ("kind", "car")],
)  # fmt: skip
def test_what_is_wrong_is_said_at_its_field(owner, field, value):
    answer = owner.press("/places/add/", {**FORM, field: value})
    assert (answer.status_code, list(answer.context["form"].errors)) == (422, [field])


def test_the_garages_own_places_are_not_renamed(owner, cast):
    scrap = house_place(cast.garage, "scrap")
    assert owner.press(f"/places/{scrap.pk}/edit/", FORM).status_code == 404


def test_what_is_on_a_car_is_listed_under_the_cars_name_as_it_is_now(owner, cast):
    car = VehicleFactory(garage=cast.garage, name="Heron")
    spot = car_place(car)
    owner.press(f"/cars/{car.pk}/edit/", {"name": "Egret", "tape": "green", "state": "stands"})
    spot.refresh_from_db()
    assert spot.name == "Egret"


def test_a_label_leads_to_its_place(owner, cast):
    spot = PlaceFactory(garage=cast.garage)
    assert owner.get(f"/c/{spot.code}/")["Location"] == f"/places/{spot.pk}/"


def test_the_way_round_is_kept_and_outside_is_no_place(owner, cast):
    PlaceFactory(garage=cast.garage, name="Far", walk_order=90)
    PlaceFactory(garage=cast.garage, name="Near", walk_order=10)
    supplier = house_place(cast.garage, "supplier")
    names = [spot.name for spot in owner.get("/places/").context["places"]]
    assert names == ["Near", "Far"]
    assert supplier.name not in names


def test_who_may(cast):
    wanted = {"owner": 303, "helper": 303, "viewer": 403, "stranger": 404, "nobody": 302}
    for who, status in wanted.items():
        spot = PlaceFactory(garage=cast.garage)
        answer = cast.client(who).press(f"/places/{spot.pk}/edit/", {**FORM, "name": f"For {who}"})
        assert answer.status_code == status


def test_markup_in_a_place_is_shown_as_typed(owner, cast):
    spot = PlaceFactory(garage=cast.garage, name="<b>bin</b>")
    for path in ("/places/", f"/places/{spot.pk}/"):
        assert "<b>bin</b>" not in owner.get(path).content.decode()


def test_as_many_queries_for_thirty_as_for_one(owner, cast):
    PlaceFactory(garage=cast.garage)
    first = queries(owner, "/places/")
    supplier = house_place(cast.garage, "supplier")
    for spot in PlaceFactory.create_batch(30, garage=cast.garage):
        part = PartFactory(garage=cast.garage)
        stock.move(part, "receive", 1, supplier, spot, by=cast.owner, at=NOW)
    assert queries(owner, "/places/") == first
