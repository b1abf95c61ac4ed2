"""One box finds things by their names, and forgives slips."""

import pytest
from django.urls import reverse

from builds.find.engine import indexed, meant, slips_forgiven
from builds.find.pages.garage_pages import BY_PAGE, CAR_PAGES, OWNERS
from garage.models import Garage, Person
from tests.factories import EventFactory, JobFactory, VehicleFactory
from tests.parts.factories import PartFactory

NAMES = ["Brake caliper, left", "Bleed the brakes Heron", "Radiator hose", "Horse box", "Ünder tray", "Camber Badger"]
ALONE = [(name, "") for name in NAMES]


def found(typed, most=20):
    return [NAMES[place] for place in meant(typed, indexed(ALONE), most)]


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
    assert meant(typed, indexed([(word, "")]), 1) == [0] * there


def test_short_words_forgive_nothing_long_ones_two_slips():
    assert [slips_forgiven(letters) for letters in (1, 3, 4, 5, 6, 30)] == [0, 0, 1, 1, 2, 2]


def test_ties_stay_in_the_order_given_and_no_more_are_told():
    names = [(f"Bolt {number}", "") for number in range(30)]
    assert meant("bolt", indexed(names), 20) == list(range(20))


WEAK = [("Horse box", ""), ("Hose", ""), ("Merlin", ""), ("Camber", "Merlin"), ("Tighten it", "hose")]


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("hose", ["Hose"]),  # neither a slip of the horse box nor what a hose only stands beside
        ("hors", ["Horse box"]),
        ("merlin", ["Merlin"]),
        ("merlni", ["Merlin"]),
        ("camber merlni", ["Camber"]),
        ("tigthen", ["Tighten it"]),
    ],
)
def test_what_is_weaker_is_told_only_where_nothing_is_strong(typed, told):
    assert [WEAK[place][0] for place in meant(typed, indexed(WEAK), 20)] == told


@pytest.fixture
def things(cast):
    car = VehicleFactory(garage=cast.garage, name="Heron")
    JobFactory(vehicle=car, title="Bleed the brakes", made_by=cast.owner)
    JobFactory(vehicle=car, title="Bleed the clutch", state="done", made_by=cast.owner)
    JobFactory(vehicle=car, title="Weld the arm", rank="safety", state="done", made_by=cast.owner)
    PartFactory(garage=cast.garage, name="Brake caliper", number="WM-77")
    EventFactory(garage=cast.garage, name="Saltmarsh Hill Climb")
    VehicleFactory(name="Herring")  # another garage's
    Person.objects.filter(pk=cast.owner.person_id).update(surname="Calder")
    return car


@pytest.mark.usefixtures("now")
@pytest.mark.parametrize(
    ("typed", "name", "says"),
    [
        ("herno", "Heron", "Car"),
        ("tove", "Tove", "Person"),
        ("saltmash", "Saltmarsh Hill Climb", "Event"),
        ("bleed brakes", "Bleed the brakes", "Job, Heron, open"),
        ("bleed clutch", "Bleed the clutch", "Job, Heron, done"),
        ("weld arm", "Weld the arm", "Job, Heron, done, not signed"),
        ("wm-77", "Brake caliper", "Part, WM-77"),
        ("camber heron", "Camber", "Reading"),
        ("calder", "Ines Calder", "Person"),
        ("ines calder", "Ines Calder", "Person"),
        ("steering arm", "Steering arm or knuckle rework", "Recipe"),
        ("spaner check", "Fluids and spanner check before an event", "Recipe"),
        ("steering linkage", "Steering linkage", "Sum"),
        ("setup sheet", "Setup sheet", "Page"),
        ("calendar", "Calendar", "Page"),
        ("shopping", "What is wanted and to buy", "Page"),
    ],
)
def test_each_kind_of_thing_is_found_and_its_page_opens(viewer, things, typed, name, says):
    line = viewer.get("/find/", {"q": typed}).context["lines"][0]
    assert (line.name, line.says) == (name, says)
    assert viewer.get(line.url).status_code == 200


@pytest.mark.usefixtures("now")
def test_a_reading_is_one_line_that_leads_to_that_of_each_car(owner, cast, things):
    badger = VehicleFactory(garage=cast.garage, name="Badger")
    camber = [line for line in owner.get("/find/?q=camber").context["lines"] if line.says == "Reading"]
    assert [line.cars for line in camber] == [
        (("Heron", f"/cars/{things.pk}/readings/camber/"), ("Badger", f"/cars/{badger.pk}/readings/camber/"))
    ]
    (asked,) = [line for line in owner.get("/find/?q=camber+badger").context["lines"] if line.says == "Reading"]
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


@pytest.mark.usefixtures("now")
def test_each_page_of_the_garage_opens_for_whom_it_is_found(owner, helper, cast, things):
    Garage.objects.exclude(pk=cast.garage.pk).delete()  # whose copies are one's own
    for client, opens in ((owner, True), (helper, False)):
        for known in BY_PAGE.values():
            found_here = {line.url for line in client.get("/find/", {"q": known.name}).context["lines"]}
            of_a_car = known in CAR_PAGES
            address = reverse(known.page, args=[things.pk] if of_a_car else [])
            assert (address in found_here) is (opens or known.page not in OWNERS), known.name
            assert client.get(address).status_code == (200 if address in found_here else 403), known.name
