"""A part's page: where it is, what can be done from there, and every move of it."""

import pytest

from builds.shelf.actions import shelf
from parts.actions.places import car_place, house_place
from tests.conftest import queries
from tests.factories import NOW, JobFactory, VehicleFactory
from tests.parts.factories import PartFactory, PlaceFactory

pytestmark = pytest.mark.usefixtures("now")


@pytest.fixture
def rack(cast):
    return PartFactory(garage=cast.garage, name="Rack", single=True, systems=["steering"])


def carry(cast, part, verb, quantity=1, **ends):
    return shelf.carry_out(part, verb, quantity=quantity, by=cast.owner, at=NOW, **ends)


def taps(client, part):
    spots = client.get(f"/parts/{part.pk}/").context["view"].spots
    return {spot.where.place.kind: [tap.label for tap in spot.taps + spot.more] for spot in spots}


def test_what_can_be_done_goes_by_where_it_is(owner, cast, rack):
    spot, car = PlaceFactory(garage=cast.garage), VehicleFactory(garage=cast.garage)
    carry(cast, rack, "receive", target=spot)
    ways = ["Pull", "Fit", "Put elsewhere", "Lend", "Send for repair", "Scrap", "Count"]
    assert taps(owner, rack) == {"shelf": ways}
    carry(cast, rack, "pull", source=spot)
    assert taps(owner, rack)["bench"][0] == "Fit"
    carry(cast, rack, "fit", source=house_place(cast.garage, "bench"), car=car)
    assert taps(owner, rack) == {"car": ["Pull", "Take off", "Send for repair", "Scrap"]}
    carry(cast, rack, "repair", source=car_place(car))
    assert taps(owner, rack) == {"repair": ["Take back", "Scrap"]}


def test_what_may_not_be_fitted_is_not_offered_to_be(owner, cast):
    arm = PartFactory(garage=cast.garage, condition="repair")
    carry(cast, arm, "receive", target=PlaceFactory(garage=cast.garage))
    assert "Fit" not in taps(owner, arm)["shelf"]


def test_every_way_from_a_part_leads_to_a_page(owner, cast, rack):
    carry(cast, rack, "receive", target=PlaceFactory(garage=cast.garage))
    (spot,) = owner.get(f"/parts/{rack.pk}/").context["view"].spots
    for tap in spot.taps + spot.more:
        assert owner.get(tap.url).status_code == 200, tap


def test_its_history_says_who_when_why_and_for_which_job(owner, cast, rack):
    spot, car = PlaceFactory(garage=cast.garage), VehicleFactory(garage=cast.garage)
    job = JobFactory(vehicle=car, title="Centre the rack")
    carry(cast, rack, "receive", target=spot, why="from the breaker")
    carry(cast, rack, "pull", source=spot, job=job)
    first, second = owner.get(f"/parts/{rack.pk}/").context["view"].moves
    assert (first.words, first.job, first.who) == ("1 piece pulled", job, "Ines")
    assert (second.why, second.when) == ("from the breaker", "17:00")


def test_a_viewer_reads_and_is_offered_nothing(viewer, cast, rack):
    carry(cast, rack, "receive", target=PlaceFactory(garage=cast.garage))
    body = viewer.get(f"/parts/{rack.pk}/").content.decode().split("<main", 1)[1]
    assert "/move/" not in body and "/undo/" not in body and "/edit/" not in body


def test_as_many_queries_for_fifty_moves_as_for_one(owner, cast):
    nuts, spot = PartFactory(garage=cast.garage), PlaceFactory(garage=cast.garage)
    job = JobFactory(vehicle=VehicleFactory(garage=cast.garage))
    carry(cast, nuts, "receive", 100, target=spot)
    carry(cast, nuts, "pull", source=spot, job=job)
    first = queries(owner, f"/parts/{nuts.pk}/")
    for _ in range(50):
        carry(cast, nuts, "pull", source=spot, job=job)
    assert queries(owner, f"/parts/{nuts.pk}/") == first


def test_of_what_came_in_nobody_says_that_a_supplier_sent_it(owner, cast, rack):
    spot = PlaceFactory(garage=cast.garage, name="Loft")
    carry(cast, rack, "receive", target=spot)
    carry(cast, rack, "pull", source=spot)
    lines = owner.get(f"/parts/{rack.pk}/").context["view"].moves
    assert [f"{line.words} {line.way}" for line in lines] == [
        "1 piece pulled from Loft to the bench",
        "1 piece received at Loft",
    ]
