"""What is owed: by car and by age, where it is now, and the way to give it back."""

from datetime import timedelta

import pytest

from builds.shelf.actions import shelf
from builds.shelf.pages.owed import owed_lines
from builds.shelf.pages.owed_sheet import owed_sheet_rows
from parts.actions.places import car_place
from tests.conftest import queries
from tests.factories import NOW, JobFactory, VehicleFactory
from tests.pages import words
from tests.parts.factories import PartFactory, PlaceFactory

pytestmark = pytest.mark.usefixtures("now")


@pytest.fixture
def robbing(cast):
    """`rob` takes a part off a car it was on, so many days ago."""

    class Robbing:
        badger = VehicleFactory(garage=cast.garage, name="Badger")
        moth = VehicleFactory(garage=cast.garage, name="Moth")
        heron = VehicleFactory(garage=cast.garage, name="Heron")
        shelf = PlaceFactory(garage=cast.garage, name="Shelf A")

        @staticmethod
        def carry(part, verb, days=0, **ends):
            at = NOW - timedelta(days=days)
            return shelf.carry_out(part, verb, quantity=1, by=cast.owner, at=at, **ends)

        @classmethod
        def rob(cls, car, name, days, verb="pull", **ends):
            part = PartFactory(garage=cast.garage, name=name, single=True, systems=["wheels"])
            cls.carry(part, "receive", 30, target=cls.shelf)
            cls.carry(part, "fit", 30, source=cls.shelf, car=car)
            cls.carry(part, verb, days, source=car_place(car), **ends)
            return part

    return Robbing


def test_by_car_the_longest_waiting_first_and_by_age(owner, robbing):
    robbing.rob(robbing.badger, "Front hubs", days=1)
    robbing.rob(robbing.moth, "Fuel pump", days=9)
    robbing.rob(robbing.badger, "Rack", days=3)
    context = owner.get("/owed/").context
    found = [(car.name, [line.part.name for line in lines]) for car, lines in context["cars"]]
    assert found == [("Moth", ["Fuel pump"]), ("Badger", ["Rack", "Front hubs"])]
    assert [line.age for line in context["lines"]] == ["9 days", "3 days", "one day"]
    assert "Badger: Rack" in words(owner.get("/owed/?by=age").content.decode())


def test_it_says_what_it_went_into_and_where_it_is(owner, robbing):
    job = JobFactory(vehicle=robbing.heron, title="Front end")
    robbing.rob(robbing.badger, "Front hubs", days=1, job=job)
    (line,) = owner.get("/owed/").context["lines"]
    assert (line.went_to, line.where) == (job, "the bench")


def test_one_tap_leads_to_giving_it_back_from_the_bench(owner, robbing):
    part = robbing.rob(robbing.badger, "Front hubs", days=1)
    (line,) = owner.get("/owed/").context["lines"]
    (tap,) = line.taps
    form = owner.get(tap.url).context["form"]
    data = {name: form[name].value() for name in form.fields if form[name].value() is not None}
    assert data["car"] == robbing.badger.pk
    assert owner.press(tap.url, data).status_code == 303
    assert owner.get("/owed/").context["lines"] == []
    assert car_place(robbing.badger).balances.get(part=part).quantity == 1


def test_from_another_car_it_is_pulled_and_from_someone_taken_back(cast, robbing):
    part = robbing.rob(robbing.badger, "Front hubs", days=1, verb="take_off", target=robbing.shelf)
    robbing.carry(part, "fit", source=robbing.shelf, car=robbing.heron)
    (line,) = owed_lines(cast.garage, NOW)
    assert (line.where, [tap.label for tap in line.taps]) == ("on Heron", ["Pull it off Heron"])
    robbing.carry(part, "take_off", source=car_place(robbing.heron), target=robbing.shelf)
    robbing.carry(part, "lend", source=robbing.shelf, someone="Tove")
    line = owed_lines(cast.garage, NOW)[0]
    assert (line.where, [tap.label for tap in line.taps]) == ("with Tove", ["Take it back"])


def test_scrapped_it_leaves_the_job_to_fit_another(cast, robbing):
    robbing.rob(robbing.badger, "Front hubs", days=1, verb="scrap")
    (line,) = owed_lines(cast.garage, NOW)
    assert (line.where, line.taps) == ("the scrap", ())


def test_the_car_today_and_the_shelf_lead_there(owner, robbing):
    robbing.rob(robbing.badger, "Front hubs", days=1)
    JobFactory(vehicle=robbing.badger)
    assert "One part is owed to a car" in owner.get("/").content.decode()
    assert 'href="/owed/"' in owner.get("/shelf/").content.decode()
    body = owner.get(f"/cars/{robbing.badger.pk}/?tab=gear").content.decode()
    assert "Fit it back from the bench" in body
    assert "Fit it back" not in owner.get(f"/cars/{robbing.heron.pk}/?tab=gear").content.decode()


def test_a_viewer_reads_and_a_stranger_sees_nothing(viewer, stranger, robbing):
    robbing.rob(robbing.badger, "<b>hubs</b>", days=1)
    body = viewer.get("/owed/").content.decode()
    assert "&lt;b&gt;hubs&lt;/b&gt;" in body and "<b>hubs</b>" not in body
    assert "/move/fit/" not in body
    assert stranger.get("/owed/").context["lines"] == []


def test_as_many_queries_for_twenty_as_for_one(owner, robbing):
    job = JobFactory(vehicle=robbing.heron)
    robbing.rob(robbing.badger, "Part", days=1, job=job)
    first = queries(owner, "/owed/"), queries(owner, f"/cars/{robbing.badger.pk}/?tab=gear")
    for number in range(20):
        robbing.rob(robbing.badger, f"Part {number}", days=1, job=job)
    assert (queries(owner, "/owed/"), queries(owner, f"/cars/{robbing.badger.pk}/?tab=gear")) == first


def test_the_sheet_says_the_same_by_car(viewer, cast, robbing):
    robbing.rob(robbing.badger, "hubs", days=9)
    robbing.rob(robbing.moth, "relay", days=2)
    sheet = owed_sheet_rows(cast.garage, NOW)
    assert [(car, [what for what, _ in owed]) for car, owed in sheet.cars] == [
        ("Badger is owed", ["hubs"]),
        ("Moth is owed", ["relay"]),
    ]
    assert "(9 days)" in sheet.cars[0][1][0][1]
    assert viewer.get("/owed/sheet.pdf").content.startswith(b"%PDF")
    assert 'href="/owed/sheet.pdf"' in viewer.get("/owed/").content.decode()
