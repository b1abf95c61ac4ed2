"""What is news, and what is none."""

from datetime import date

import pytest

from builds.news.engine import NewsKinds, Standing, news

TODAY = date(2027, 3, 2)
ALL = NewsKinds(evenings=True, points=True, parts=True, cars=True)
FAN, ARM = ["18:00", "“Fit the fan”, Heron"], ["19:30", "“Weld the arm”, Heron"]


@pytest.mark.parametrize(
    ("was", "now", "said"),
    [
        ({"2027-03-03": FAN}, {"2027-03-03": ARM}, ["Wed 3 Mar: from 19:30 instead of 18:00: “Weld the arm”, Heron."]),
        ({"2027-03-03": FAN}, {}, ["Wed 3 Mar: nothing is planned for you any more."]),
        ({}, {"2027-03-04": FAN}, ["Thu 4 Mar, from 18:00: “Fit the fan”, Heron."]),
        ({"2027-03-03": FAN}, {"2027-03-03": ["18:00", "another"]}, []),
        ({"2027-03-02": FAN}, {}, []),
        ({"2027-03-01": FAN}, {}, []),
    ],
)
def test_an_evening_that_moved_is_told_and_what_is_over_is_not(was, now, said):
    assert news(Standing(evenings=was), Standing(evenings=now), {}, ALL, TODAY) == said


@pytest.mark.parametrize(
    ("was", "now", "said"),
    [
        ("not_fit", "fit", ["Heron: ..."]),
        ("fit", "not_fit", ["Heron: ..."]),
        ("fit", "not_known", ["Heron: ..."]),
        ("not_known", "not_fit", []),
        ("fit", "fit", []),
    ],
)
def test_a_car_that_became_fit_or_unfit(was, now, said):
    before, after = Standing(cars={"1": [was, ""]}), Standing(cars={"1": [now, "Heron: ..."], "2": ["fit", "new"]})
    assert news(before, after, {}, ALL, TODAY) == said


def test_a_point_that_waits_and_a_part_that_came_are_told_once():
    before = Standing(points={"/a/": "Old"}, parts={"7": "a hub"})
    after = Standing(points={"/a/": "Old", "/b/": "Root pass"})
    assert news(before, after, {"7": "a hub", "8": "never sought"}, ALL, TODAY) == [
        "Waits for your look: Root pass.",
        "Here: a hub.",
    ]
    assert news(after, after, {}, ALL, TODAY) == []


def test_only_what_was_asked_for():
    before, after = Standing(evenings={"2027-03-03": FAN}, parts={"7": "a hub"}), Standing(points={"/b/": "Root pass"})
    none = NewsKinds(evenings=False, points=False, parts=False, cars=False)
    assert news(before, after, {"7": "a hub"}, none, TODAY) == []


def test_what_was_kept_is_read_again_and_what_is_unknown_left_out():
    stands = Standing(evenings={"2027-03-03": FAN}, cars={"1": ["fit", "x"]})
    assert Standing.read({**stands.kept(), "older": 1}) == stands
