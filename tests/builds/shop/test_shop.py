"""The shop: readings, days, heated hours; typed as the garage measures, kept exactly."""

from datetime import date, timedelta

import pytest

from builds.cure.facts.shop import shop_of
from builds.cure.models.shop import HeatedHours, ShopDay, TemperatureReading
from tests.conftest import queries
from tests.factories import NOW

pytestmark = pytest.mark.usefixtures("now")
TODAY = NOW.date()
HOUR, DAY = timedelta(hours=1), timedelta(days=1)


def view(client):
    return client.get("/shop/").context["view"]


def warm(garage, moment, at=NOW):
    return shop_of(garage, at).at_moment(moment)


def days(client, first=TODAY, **given):
    """The form of the days: `d0="4-12"` is today."""
    data = {}
    for name, words in given.items():
        low, _, high = words.partition("/")
        day = first + timedelta(days=int(name[1:]))
        data |= {f"low-{day}": low, f"high-{day}": high}
    return client.press("/shop/days/", data)


def test_until_something_is_entered_it_says_that_the_days_are_an_example(owner):
    body = owner.get("/shop/").content.decode()
    assert "an invented example" in body
    assert [(row.low, row.high, row.entered) for row in view(owner).days[:2]] == [("10 °C", "16 °C", False)] * 2


def test_days_are_entered_and_the_last_one_goes_on(owner, cast):
    assert days(owner, d0="4/12", d2="-2,5/3").status_code == 303
    assert [(row.low, row.high, row.entered) for row in view(owner).days[:4]] == [
        ("4 °C", "12 °C", True),
        ("4 °C", "12 °C", False),
        ("-2.5 °C", "3 °C", True),
        ("-2.5 °C", "3 °C", False),
    ]
    midnight = NOW.replace(hour=0)
    assert warm(cast.garage, midnight + DAY + 3 * HOUR) == pytest.approx(4)
    assert warm(cast.garage, midnight + DAY + 15 * HOUR) == pytest.approx(12)
    assert warm(cast.garage, midnight + 4 * DAY + 3 * HOUR) == pytest.approx(-2.5)
    assert "an invented example" not in owner.get("/shop/").content.decode()


def test_an_emptied_day_is_again_like_the_one_before(owner):
    days(owner, d0="4/12", d1="8/9")
    days(owner, d0="4/12")
    assert [row.day for row in ShopDay.objects.all()] == [TODAY]


def test_one_temperature_by_day_and_by_night(owner, cast):
    days(owner, d0="4/12", d3="1/2")
    assert owner.press("/shop/days/", {"held_mc": "18"}).status_code == 303
    assert [(row.day, row.low_mc, row.high_mc) for row in ShopDay.objects.all()] == [(TODAY, 18_000, 18_000)]
    assert warm(cast.garage, NOW + 100 * DAY) == 18


@pytest.mark.parametrize(
    ("typed", "field", "sentence"),
    [
        ("4/", "high", "Give both the low and the high, or neither."),
        ("/4", "low", "Give both the low and the high, or neither."),
        ("9/4", "high", "The high is not below the low."),
        ("mild/4", "low", "Write a number such as 12.5 or 12,5, without marks for thousands."),
        ("4/99", "high", "It must lie between -40 °C and 60 °C."),
    ],
)
def test_what_is_wrong_with_a_day_is_said_there(owner, typed, field, sentence):
    answer = days(owner, d1=typed)
    assert answer.status_code == 422
    assert answer.context["form"].errors[f"{field}-{TODAY + DAY}"] == [sentence]
    assert not ShopDay.objects.exists()


def test_a_reading_is_one_field_and_says_how_warm_it_is_now(owner, cast):
    answer = owner.press("/shop/read/", {"air_mc": "6.5", "next": "/"})
    assert (answer.status_code, answer["Location"]) == (303, "/")
    row = TemperatureReading.objects.get()
    assert (row.air_mc, row.humidity, row.metal_mc, row.at, row.by) == (
        6500,
        None,
        None,
        NOW,
        cast.owner,
    )
    found = view(owner)
    assert (found.now, found.told) == ("6.5 °C", "read 17:00")
    assert [(line.air, line.by) for line in found.readings] == [("6.5 °C", "Ines")]


def test_a_reading_counts_near_its_moment_and_fades_within_a_day(owner, cast):
    days(owner, d0="10/10")
    owner.press("/shop/read/", {"air_mc": "4"})
    told = [warm(cast.garage, NOW + hours * HOUR) for hours in (-30, -12, 0, 12, 24, 48)]
    assert told == pytest.approx([10, 7, 4, 7, 10, 10])


def test_humidity_gives_the_dew_point(owner):
    owner.press("/shop/read/", {"air_mc": "20", "humidity": "60", "metal_mc": "15"})
    assert view(owner).dew == "Dew point 12 °C, humidity 60 %"
    assert view(owner).readings[0].more == ("humidity 60 %", "metal 15 °C")
    owner.press("/shop/read/", {"air_mc": "20", "humidity": "60"})
    assert view(owner).dew.startswith("Dew point 12 °C, humidity 60 %. Nobody has measured the metal: cold steel")


@pytest.mark.parametrize(
    ("field", "value", "sentence"),
    [
        ("air_mc", "", "This field is required."),
        ("air_mc", "180", "It must lie between -40 °C and 60 °C."),
        ("humidity", "0", "Ensure this value is greater than or equal to 1."),
        ("humidity", "101", "Ensure this value is less than or equal to 100."),
        ("metal_mc", "cold", "Write a number such as 12.5 or 12,5, without marks for thousands."),
    ],
)
def test_what_is_wrong_with_a_reading_is_said_at_its_field(owner, field, value, sentence):
    answer = owner.press("/shop/read/", {"air_mc": "12", field: value})
    assert (answer.status_code, answer.context["form"].errors[field]) == (422, [sentence])
    assert not TemperatureReading.objects.exists()


def test_a_wrong_reading_is_taken_out(owner):
    owner.press("/shop/read/", {"air_mc": "60"})
    owner.press(f"/shop/readings/{TemperatureReading.objects.get().pk}/delete/")
    assert not TemperatureReading.objects.exists()


def test_heated_hours_are_a_floor_on_their_weekdays(owner, cast):
    days(owner, d0="5/5")
    data = {"warm_mc": "18", "weekdays": [1, 3], "hours": "18:30-22:00"}
    assert owner.press("/shop/heat/", data).status_code == 303
    assert [row.when for row in view(owner).heated] == [
        "every Tue, 18:30–22:00",
        "every Thu, 18:30–22:00",
    ]
    evening = NOW.replace(hour=20)
    assert [warm(cast.garage, evening + n * DAY) for n in range(3)] == [18, 5, 18]
    assert warm(cast.garage, evening + 3 * HOUR) == 5
    owner.press(f"/shop/heat/{HeatedHours.objects.first().pk}/delete/")
    assert [warm(cast.garage, evening + n * DAY) for n in range(3)] == [5, 5, 18]


def test_heated_on_one_day(owner, cast):
    days(owner, d0="5/5")
    data = {"warm_mc": "20", "day": "2027-03-06", "hours": "8-12, 13-17"}
    owner.press("/shop/heat/", data)
    saturday = NOW.replace(day=6, hour=0)
    assert [warm(cast.garage, saturday + h * HOUR) for h in (7, 9, 12.5, 14)] == [5, 20, 5, 20]
    assert [row.day for row in HeatedHours.objects.all()] == [date(2027, 3, 6)] * 2


@pytest.mark.parametrize(
    ("more", "field", "sentence"),
    [
        ({}, "weekdays", "Tick a weekday, or give one day."),
        (
            {"weekdays": [1], "day": "2027-03-06"},
            "day",
            "Choose weekdays or one day, not both.",
        ),
        ({"day": "2027-03-01"}, "day", "That day is over: choose today or a later one."),
        ({"day": "2029-03-01"}, "day", "That is more than a year away."),
        (
            {"weekdays": [1], "hours": "22:00-6:00"},
            "hours",
            "22:00-6:00 runs backwards; past midnight, write two stretches.",
        ),
        (
            {"weekdays": [7]},
            "weekdays",
            "Select a valid choice. 7 is not one of the available choices.",
        ),
    ],
)
def test_what_is_wrong_with_heated_hours_is_said_there(owner, more, field, sentence):
    answer = owner.press("/shop/heat/", {"warm_mc": "18", "hours": "18-22", **more})
    assert (answer.status_code, answer.context["form"].errors[field]) == (422, [sentence])
    assert not HeatedHours.objects.exists()


def test_a_garage_in_fahrenheit_types_and_reads_fahrenheit(owner, cast):
    cast.garage.units = "imperial"
    cast.garage.save()
    days(owner, d0="41/59")
    owner.press("/shop/read/", {"air_mc": "68.5"})
    assert ShopDay.objects.get().low_mc == 5000
    assert (view(owner).now, view(owner).days[0].high) == ("68.5 °F", "59 °F")
    assert 'value="41"' in owner.get("/shop/days/").content.decode()


def test_who_may(cast):
    wanted = {"owner": 303, "helper": 303, "viewer": 403, "nobody": 302}
    for who, status in wanted.items():
        client = cast.client(who)
        assert client.press("/shop/read/", {"air_mc": "9"}).status_code == status
        assert client.press("/shop/days/", {}).status_code == status
    assert "/shop/read/" not in cast.client("viewer").get("/shop/").content.decode()


def test_another_garage_has_its_own_weather(owner, stranger):
    owner.press("/shop/days/", {"held_mc": "30"})
    owner.press("/shop/read/", {"air_mc": "30"})
    assert view(stranger).is_example
    row = TemperatureReading.objects.get()
    assert stranger.press(f"/shop/readings/{row.pk}/delete/").status_code == 404


def test_as_many_queries_for_fifty_readings_as_for_one(owner, cast):
    owner.press("/shop/read/", {"air_mc": "9"})
    days(owner, d0="5/9")
    first = queries(owner, "/shop/")
    TemperatureReading.objects.bulk_create(
        TemperatureReading(garage=cast.garage, at=NOW - n * HOUR, air_mc=9000, by=cast.helper) for n in range(50)
    )
    days(owner, **{f"d{n}": "5/9" for n in range(8)})
    assert queries(owner, "/shop/") == first
