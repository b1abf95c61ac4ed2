"""A garage of many cars: the first few are said one by one, those behind them stand in a fold that says how they do."""

from datetime import timedelta

import pytest

from tests.builds.plan.plan_kit import enter, evenings, job, planned
from tests.factories import NOW, VehicleFactory
from tests.pages import words

pytestmark = pytest.mark.usefixtures("now")


@pytest.fixture
def fleet(cast):
    """Five cars that leave in two days; the last two have more work than there are hours."""
    evenings(cast.owner)
    cars = [VehicleFactory(garage=cast.garage, name=name) for name in ("Wren", "Plover", "Sable", "Ketch", "Moth")]
    for car, minutes in zip(cars, (15, 15, 15, 40 * 60, 40 * 60), strict=True):
        enter(car, NOW + timedelta(days=2))
        job(car, cast, f"Oil {car}", rank="safety", low_minutes=minutes, likely_minutes=minutes, high_minutes=minutes)
    planned(cast.garage)
    return cars


@pytest.mark.parametrize(
    "path, fold, folded",
    [
        ("/", "2 more cars, 2 of them will not make it", {"Ketch", "Moth"}),
        ("/plan/", "2 more cars", {"Plover", "Sable"}),  # those that will not make it come first
    ],
)
def test_three_cars_stand_one_by_one_and_the_rest_in_a_fold(owner, fleet, path, fold, folded):
    shown, behind = owner.get(path).content.decode().split(f"<summary>{fold}</summary>")
    shown = shown[shown.index('class="folds"') :]
    assert {car.name for car in fleet if f"{car}'s page" in behind} == folded
    assert {car.name for car in fleet if f"{car}'s page" in shown} == {car.name for car in fleet} - folded


def test_the_key_board_gives_reasons_as_long_as_there_are_few_cars(owner, fleet):
    assert "Open safety job: “Oil Wren”" not in key_board(owner)
    fleet[-1].delete()
    assert "Open safety job: “Oil Wren”" in key_board(owner)


def key_board(client):
    return words(client.get("/cars/").content.decode())
