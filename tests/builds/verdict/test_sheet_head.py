"""The head of a sheet: one car's sentence, several cars by how they stand, never too many names."""

from builds.verdict.engine import Reason, Severity, Verdict
from builds.verdict.pages import ROOM, head_of, verdict_words
from tests.factories import NOW, JobFactory, VehicleFactory

FIT = Verdict(NOW, "fit", "Fit to run")
LOOSE = Reason(Severity.LOOSE, "Loose.", "Tighten.", "job", 1)
NEEDED = Reason(Severity.NEEDED, "Needed.", "Do it.", "job", 2)


def not_fit(*reasons):
    return Verdict(NOW, "not_fit", "Not fit to run: 1 thing stands in the way", reasons)


def test_one_car_has_its_sentence():
    assert verdict_words({"Heron": FIT}) == "Fit to run."
    assert verdict_words({"Heron": not_fit(NEEDED)}).startswith("Not fit to run: 1 thing")
    assert verdict_words({"Heron": not_fit(LOOSE)}).startswith("DO NOT DRIVE. Not fit to run")
    assert verdict_words({"Heron": FIT}, names=True) == "Heron. Fit to run."


def test_several_are_told_by_how_they_stand_worst_first():
    unknown = Verdict(NOW, "not_known", "Not known to be fit: nobody has said which readings it must have")
    cars = {"Heron": FIT, "Badger": not_fit(LOOSE, NEEDED), "Moth": unknown, "Tug": not_fit(NEEDED)}
    assert verdict_words(cars) == (
        "DO NOT DRIVE: Badger. Not fit to run: Badger (2), Tug (1). Not known to be fit: Moth. Fit to run: Heron."
    )


def test_no_car_has_no_verdict():
    assert verdict_words({}) == ""


def test_a_fleet_does_not_fill_the_page():
    words = verdict_words({f"{number:02d}{'W' * 38}": FIT for number in range(40)})
    assert words.endswith(" and 38 more.")
    assert len(words) < ROOM + 40
    assert verdict_words({"W" * 200: FIT, "V" * 200: FIT}).endswith(" and 1 more.")


def test_the_verdict_is_that_of_the_page(cast, now, settings):
    settings.PUBLIC_URL = "https://garage.example.org"
    car = VehicleFactory(garage=cast.garage)
    JobFactory(vehicle=car, rank="safety", systems=["brakes"], state="in_hand")
    head = head_of(cast.garage, NOW, [car], "/cars/7/")
    assert head.verdict.startswith(f"DO NOT DRIVE: {car.name}. Not fit to run")
    assert (head.computed, head.paper) == ("Tue 2 Mar 2027 17:00", "a4")
    assert head.address == "https://garage.example.org/cars/7/"
    assert head_of(cast.garage, NOW, [], "/").verdict == ""
