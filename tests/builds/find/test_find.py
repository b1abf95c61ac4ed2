"""One box finds things by their names, and forgives slips."""

import pytest

from builds.find.engine import indexed, meant, slips_forgiven
from tests.factories import EventFactory, JobFactory, VehicleFactory
from tests.parts.factories import PartFactory

NAMES = ["Brake caliper, left", "Bleed the brakes Heron", "Radiator hose", "Horse box", "Ünder tray", "Camber Badger"]


def found(typed, most=20):
    return [NAMES[place] for place in meant(typed, indexed(NAMES), most)]


@pytest.mark.parametrize(
    ("typed", "first"),
    [
        ("caliper", "Brake caliper, left"),
        ("calliper", "Brake caliper, left"),
        ("calipr", "Brake caliper, left"),
        ("cal", "Brake caliper, left"),
        ("heron bleed", "Bleed the brakes Heron"),
        ("breaks heron", "Bleed the brakes Heron"),
        ("raidator", "Radiator hose"),
        ("hose", "Radiator hose"),
        ("under", "Ünder tray"),
        ("CAMBR badger", "Camber Badger"),
    ],
)
def test_what_was_meant_comes_first(typed, first):
    assert found(typed)[0] == first


@pytest.mark.parametrize("typed", ["", " ", "-,;", "zzz", "caliper heron", "brake horse"])
def test_every_word_must_be_there(typed):
    assert found(typed) == []


@pytest.mark.parametrize(
    ("typed", "word", "there"),
    [
        *(("hose", "hose", True), ("hos", "hose", True), ("hsoe", "hose", True), ("hoze", "hose", True)),
        *(("hosse", "hose", True), ("hxxe", "hose", False), ("hoz", "hose", False), ("breaks", "brakes", True)),
        *(("brkaes", "brakes", True), ("braxxs", "brakes", True), ("brxxxs", "brakes", False)),
        *(("radaitr", "radiator", True), ("hoses", "hose", True), ("x" * 40, "x" * 50, True)),
    ],
)
def test_slips_are_counted_to_a_beginning_of_the_word(typed, word, there):
    assert meant(typed, indexed([word]), 1) == [0] * there


def test_short_words_forgive_nothing_long_ones_two_slips():
    assert [slips_forgiven(letters) for letters in (1, 3, 4, 5, 6, 30)] == [0, 0, 1, 1, 2, 2]


def test_ties_stay_in_the_order_given_and_no_more_are_told():
    names = [f"Bolt {number}" for number in range(30)]
    assert meant("bolt", indexed(names), 20) == list(range(20))


@pytest.fixture
def things(cast):
    car = VehicleFactory(garage=cast.garage, name="Heron")
    JobFactory(vehicle=car, title="Bleed the brakes", made_by=cast.owner)
    JobFactory(vehicle=car, title="Bleed the clutch", state="done", made_by=cast.owner)
    PartFactory(garage=cast.garage, name="Brake caliper", number="WM-77")
    EventFactory(garage=cast.garage, name="Saltmarsh Hill Climb")
    VehicleFactory(name="Herring")  # another garage's
    return car


@pytest.mark.usefixtures("now")
@pytest.mark.parametrize(
    ("typed", "name", "says"),
    [
        ("herno", "Heron", "Car"),
        ("tove", "Tove", "Person"),
        ("saltmash", "Saltmarsh Hill Climb", "Event"),
        ("bleed brakes", "Bleed the brakes", "Job, Heron, open"),
        ("bleed clutch", "Bleed the clutch", "Job, Heron, done, not signed"),
        ("wm-77", "Brake caliper", "Part, WM-77"),
        ("camber heron", "Camber", "Reading"),
    ],
)
def test_each_kind_of_thing_is_found_and_its_page_opens(viewer, things, typed, name, says):
    line = viewer.get("/find/", {"q": typed}).context["lines"][0]
    assert (line.name, line.says) == (name, says)
    assert viewer.get(line.url).status_code == 200


@pytest.mark.usefixtures("now")
def test_a_reading_is_one_line_that_leads_to_that_of_each_car(owner, cast, things):
    badger = VehicleFactory(garage=cast.garage, name="Badger")
    camber = [line for line in owner.get("/find/?q=camber").context["lines"] if line.name == "Camber"]
    assert [line.cars for line in camber] == [
        (("Heron", f"/cars/{things.pk}/readings/camber/"), ("Badger", f"/cars/{badger.pk}/readings/camber/"))
    ]
    (asked,) = [line for line in owner.get("/find/?q=camber+badger").context["lines"] if line.name == "Camber"]
    assert (asked.url, asked.cars) == (f"/cars/{badger.pk}/readings/camber/", asked.cars[:1])


@pytest.mark.usefixtures("now")
def test_no_more_lines_are_told_than_a_page_holds(owner, cast, things):
    for number in range(30):
        JobFactory(vehicle=things, title=f"Bleed {number}", made_by=cast.owner)
    assert len(owner.get("/find/?q=bleed").context["lines"]) == 20


@pytest.mark.usefixtures("now")
def test_nothing_of_another_garage_is_found(owner, things):
    assert [line.name for line in owner.get("/find/?q=herring").context["lines"] if line.name == "Herring"] == []
    assert "Nothing here is called “zzz”." in owner.get("/find/?q=zzz").content.decode()


@pytest.mark.usefixtures("now")
@pytest.mark.parametrize("typed", ["\0", "%", "'\"<b>", "x" * 5000, " ".join("abcdefghijklmnop")])
def test_whatever_is_typed_the_page_answers(owner, things, typed):
    assert owner.get("/find/", {"q": typed}).status_code == 200
