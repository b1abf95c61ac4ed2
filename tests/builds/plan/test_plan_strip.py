"""The strip of the plan page: the whole way, a day alone, and work that crosses its edge."""

import re
from datetime import timedelta

import pytest

from tests.builds.plan.plan_kit import enter, evenings, job, main, planned, text
from tests.factories import NOW, VehicleFactory
from tests.pages import written

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("now")]
DAY = timedelta(days=1)
NO_DAYS = ["2027-13-45", "tomorrow", "2031-01-01", "9999-12-31", "1999-01-01", "2027-03-04", ""]


@pytest.fixture
def car(cast):
    evenings(cast.owner)
    return VehicleFactory(garage=cast.garage, name="Heron")


def test_the_strip_is_named_and_described_and_late_work_crosses_its_edge(cast, car, owner):
    job(car, cast, "Long one", likely_minutes=300, high_minutes=300)
    enter(car, NOW + DAY)
    planned(cast.garage)
    body = written(text(owner))
    strip = body[body.index('class="strip"') :]
    assert '<title id="strip-title">Plan strip</title>' in strip
    assert "Lanes for Ines, Tove and Priya, Tue 17:00 to Wed 19:00. Heron leaves Wed 17:00." in strip
    edge = float(re.search(r'class="event" x1="([\d.]+)%"', strip)[1])
    places = [
        (float(x), float(width))
        for x, width in re.findall(
            r'<foreignObject x="([\d.]+)%" y="\d+" width="([\d.]+)%"[^>]*><div class="block">', strip
        )
    ]
    assert len(places) == 2
    assert places[1][0] >= edge > places[0][0] + places[0][1]
    assert all(x + width <= 100 for x, width in places)
    assert "<span>late, Heron, 1 of 2</span>" in strip
    assert "By the plan late: ready Wed 19:00, it leaves Wed 17:00." in main(owner)
    assert " style=" not in body


def test_the_whole_way_fits_and_a_days_head_draws_that_day_alone(cast, car, owner):
    job(car, cast, "Long one", likely_minutes=600, high_minutes=600)
    enter(car, NOW + 9 * DAY)
    planned(cast.garage)
    whole = written(text(owner))
    assert ">The whole way</h2>" in whole
    heads = re.findall(r'href="\?day=([\d-]+)#strip">.*?class="unseen">([^<]+)<', whole)
    assert heads == [
        ("2027-03-02", "Today alone"),
        ("2027-03-03", "Wednesday 3 March alone"),
        ("2027-03-04", "Thursday 4 March alone"),
    ]
    alone = written(text(owner, "/plan/?day=2027-03-03"))
    assert ">Wed 3 Mar alone</h2>" in alone
    assert "Wed 18:00 to Wed 22:00" not in whole
    assert re.findall(r'<div class="block-face[^>]*><b>([^<]+)</b><span>([^<]+)<', alone) == [
        ("Long one", "Heron, 2 of 3")
    ]
    assert "leaves" not in alone[alone.index('class="strip"') : alone.index('id="plan-list"')]


def test_a_day_that_is_none_or_has_no_work_draws_the_whole_way(cast, car, owner):
    job(car, cast)
    enter(car, NOW + 9 * DAY)
    planned(cast.garage)
    for asked in NO_DAYS:
        assert ">The whole way</h2>" in written(text(owner, f"/plan/?day={asked}")), asked


def test_work_of_which_nothing_is_left_has_no_strip(cast, car, owner):
    job(car, cast, low_minutes=0, likely_minutes=0, high_minutes=0)
    enter(car)
    planned(cast.garage)
    body = text(owner)
    assert "Fit the fan" in body
    assert 'id="strip"' not in body
