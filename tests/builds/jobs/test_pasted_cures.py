"""A cure in a pasted list that no line waits for: the car does."""

from html import unescape

import pytest

from builds.work.models.job import Job
from builds.work.models.link import Link
from tests.builds.plan.plan_kit import evenings, planned, starts
from tests.factories import VehicleFactory


@pytest.fixture
def car(cast):
    return VehicleFactory(garage=cast.garage, name="Heron")


def paste(client, car, text, **more):
    return client.press(f"/cars/{car.pk}/jobs/paste/", {"lines": text, **more})


@pytest.mark.usefixtures("now")
def test_a_cure_that_no_line_waits_for_the_car_waits_for(owner, cast, car):
    evenings(cast.owner)
    drawn = " ".join(unescape(paste(owner, car, "respray bonnet 3h, cure 24h\nsort bolts").content.decode()).split())
    assert (
        "The car waits for “cure 24h”: “Let it cure: respray bonnet” comes after it, and takes nobody's time." in drawn
    )
    assert paste(owner, car, "respray bonnet 3h, cure 24h\nsort bolts", step="save").status_code == 303
    coat, _, cured = Job.objects.on(car).order_by("pk")
    assert (cured.title, cured.hands, cured.rank) == ("Let it cure: respray bonnet", 0, coat.rank)
    assert list(Link.objects.by_hand().values_list("before", "after", "wait_minutes")) == [(coat.pk, cured.pk, 1440)]
    placed = starts(planned(cast.garage))
    assert (placed[coat.title][1], placed[cured.title][1]) == ("Tue 22:00", "Wed 22:00")
    assert paste(owner, car, "respray bonnet 3h, cure 24h", step="save").status_code != 500
    assert Job.objects.on(car).count() == 3


@pytest.mark.usefixtures("now")
def test_paint_of_which_no_line_says_how_long_it_cures_is_asked_about(owner, car):
    asked = "It cures once it is on, and nobody has said how long: write it at the end of the line"
    assert asked in unescape(paste(owner, car, "paint the bonnet 3h").content.decode())
    assert asked not in unescape(paste(owner, car, "paint the bonnet 3h, cure 24h\nfit the fan 1h").content.decode())


@pytest.mark.usefixtures("now")
def test_nothing_goes_into_wet_paint(owner, cast, car):
    """The seat waits until the paint has cured; what is painted off the body keeps it waiting for nothing."""
    paste(owner, car, "paint the cage 1h, cure 24h\nseat back in\npaint the calipers 1h, cure 12h", step="save")
    ahead = set(Link.objects.by_order().filter(after__title="seat back in").values_list("before__title", flat=True))
    assert ahead == {"Let it cure: paint the cage"}


@pytest.mark.usefixtures("now")
def test_work_of_which_nobody_knows_what_it_opens_is_over_before_the_car_is_weighed(owner, cast, car):
    lines = (
        "Weigh the car\nSwap the diff oil\nClean the boot\nFit the splitter; wanted\nSpanner check\nDrive it to test"
    )
    paste(owner, car, lines, step="save")
    ahead = set(Link.objects.by_order().filter(after__title="Weigh the car").values_list("before__title", flat=True))
    assert ahead == {"Swap the diff oil"}
    last = set(Link.objects.by_order().filter(after__title="Spanner check").values_list("before__title", flat=True))
    assert last == {"Weigh the car"}
