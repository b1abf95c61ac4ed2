"""A heater shortens a cure."""

import re
from types import SimpleNamespace

import pytest

from builds.cure.models.shop import HeatedHours, ShopDay
from builds.plan.facts.stored import shown
from builds.remedies.deeds.deed import title_of
from builds.remedies.deeds.fumes import clear_of
from builds.remedies.deeds.heat import HeatDeed
from builds.work.models.link import StationHold
from garage.actions.refused import Refused
from tests.builds.plan.plan_kit import enter, evenings, job, planned, starts, text
from tests.builds.remedies.remedy_kit import DAY, HOUR, TODAY, TOMORROW, address, apply, card, codes, makes_it
from tests.factories import NOW, JobStationFactory, LinkFactory, StationFactory, VehicleFactory
from tests.pages import words


def test_a_heater_shortens_a_cure(owner, cast, car):
    """Primer put on Tuesday; cold as it is, it is not ready for Wednesday evening."""
    evenings(cast.owner, days=[2])
    ShopDay.objects.create(garage=cast.garage, day=TODAY, low_mc=11_000, high_mc=11_000)
    prime = job(car, cast, "Prime", likely_minutes=60)
    refit = job(car, cast, "Refit", rank="safety", likely_minutes=120)
    LinkFactory(before=prime, after=refit, cure="epoxy-primer", cure_stage="handle", why="cures")
    entry = enter(car, NOW + 2 * DAY)
    planned(cast.garage)
    if makes_it(entry):
        pytest.fail("the cure is too short for this test")
    body = text(owner, address(entry))
    assert "The shop is heated to 20 °C Wed 3 Mar 7:00" in body, body  # the night after the primer is on is over
    assert "A heater wants fresh air" in body
    apply(owner, entry, card(owner, entry, "heat"))
    assert HeatedHours.objects.filter(day=TOMORROW).exists()
    assert makes_it(entry)


@pytest.mark.parametrize("product, since", [("topcoat-2k", "8:00"), ("body-filler", "2:00")])
def test_no_heater_is_advised_while_another_car_is_painted(owner, cast, car, product, since):
    """Moth is done from 18:00 to 20:00, and the night after is left out; the primer of Heron went on at two."""
    evenings(cast.owner, days=[2, 3])
    evenings(cast.helper, days=[1])
    cold(cast, 4)
    prime = job(car, cast, "Prime", state="done", finished_at=NOW - 3 * HOUR)
    refit = job(car, cast, "Refit", rank="safety", likely_minutes=120)
    LinkFactory(before=prime, after=refit, cure="epoxy-primer", cure_stage="handle", why="cures")
    moth = VehicleFactory(garage=cast.garage, name="Moth")
    coat = job(moth, cast, "Coat", likely_minutes=120, high_minutes=120)
    LinkFactory(before=coat, after=job(moth, cast, "Polish"), cure=product, cure_stage="handle")
    entry = enter(car, NOW + DAY + 3 * HOUR)
    planned(cast.garage)
    assert not makes_it(entry)
    said = words(text(owner, address(entry, "?whole")))
    first = said[said.index("The shop is heated") : said.index("By the plan Heron")]
    assert "Tue 2 Mar" not in first and re.findall(r"Wed 3 Mar (\S+?)–", first) == [since]
    assert "A heater wants fresh air" in said


@pytest.mark.parametrize(
    "windows, left",
    [
        ((), [(4, 20)]),
        (((0, 4),), [(4, 20)]),
        (((0, 5),), [(5, 20)]),
        (((6, 8), (10, 30)), [(4, 6), (8, 10)]),
        (((0, 30),), []),
        (((20, 30),), [(4, 20)]),
        (((19, 30),), [(4, 19)]),
    ],
)
def test_what_is_left_of_a_stretch_without_others(windows, left):
    assert list(clear_of(4, 20, windows)) == left


def cold(cast, days):
    for ahead in range(days):
        ShopDay.objects.create(garage=cast.garage, day=TODAY + ahead * DAY, low_mc=11_000, high_mc=11_000)


def heatings(owner, entry):
    """The lengths of the heatings that are offered, in days on which it is warm."""
    return [code.count("heat.") for code in codes(owner, entry) if code.startswith("heat")]


def test_a_heater_is_kept_on_for_days_where_less_would_not_do(owner, cast, car):
    """Primer that hardens fully takes a fortnight at 11 °C and a week at 20 °C."""
    evenings(cast.owner)
    cold(cast, 20)
    prime = job(car, cast, "Prime", state="done", finished_at=NOW)
    refit = job(car, cast, "Refit", rank="safety", likely_minutes=120)
    LinkFactory(before=prime, after=refit, cure="epoxy-primer", cure_stage="full", why="hardens")
    entry = enter(car, NOW + 9 * DAY)
    planned(cast.garage)
    assert not makes_it(entry)
    offered = heatings(owner, entry)
    assert offered, text(owner, address(entry, "?whole"))
    assert min(offered) > 5
    apply(owner, entry, card(owner, entry, "heat"))
    assert makes_it(entry)


def test_the_cure_of_another_car_that_is_in_the_way_is_warmed(owner, cast, car):
    """Badger stands in the only bay with its primer curing, and Heron is to go in after it."""
    evenings(cast.owner)
    cold(cast, 6)
    bay = StationFactory(garage=cast.garage, name="Bay", capacity=1, stands=True)
    badger = VehicleFactory(garage=cast.garage, name="Badger")
    prime = job(badger, cast, "Prime", state="done", finished_at=NOW)
    refit = job(badger, cast, "Refit", likely_minutes=60)
    LinkFactory(before=prime, after=refit, cure="epoxy-primer", cure_stage="handle", why="cures")
    StationHold.objects.create(station=bay, first=prime, last=refit)
    mend = job(car, cast, "Fit the fan", likely_minutes=60)
    JobStationFactory(job=mend, station=bay)
    entry = enter(car, NOW + 2 * DAY)
    planned(cast.garage)
    assert not makes_it(entry)
    apply(owner, entry, card(owner, entry, "heat"))
    assert makes_it(entry)


def test_a_shop_too_cold_for_the_work_is_warmed_for_a_session(owner, cast, car):
    """Paint asks for 15 °C and the shop stays at 11: no plan has a place for it until it is heated."""
    evenings(cast.owner)
    cold(cast, 40)
    job(car, cast, "Paint the sill", needs_mc=15_000, likely_minutes=120)
    entry = enter(car, NOW + 2 * DAY)
    planned(cast.garage)
    assert "The shop is at no time within the plan as warm" in text(owner, address(entry))
    assert not makes_it(entry)
    apply(owner, entry, card(owner, entry, "heat"))
    assert makes_it(entry)
    assert starts(shown(cast.garage))["Paint the sill"][2] == "Ines"


@pytest.mark.usefixtures("late")
@pytest.mark.parametrize(
    ("deed", "sentence"),
    [
        (HeatDeed(0, 60, 99_000, TOMORROW), "no temperature"),
        (HeatDeed(60, 60, 20_000, TOMORROW), "begins before it ends"),
    ],
)
def test_figures_out_of_bounds(do, deed, sentence):
    with pytest.raises(Refused, match=sentence):
        do(deed)
    assert not HeatedHours.objects.exists()


def test_a_night_that_goes_on_past_midnight_is_told_as_one():
    evening, morning = HeatDeed(1365, 1440, 20_000, TODAY), HeatDeed(0, 660, 20_000, TOMORROW)
    other = HeatDeed(0, 660, 20_000, TOMORROW + DAY)
    rows = SimpleNamespace(garage=SimpleNamespace(units="metric"))
    heated = "The shop is heated to 20 °C"
    assert title_of([evening, morning, other], rows) == (
        f"{heated} Tue 2 Mar 22:45 to Wed 3 Mar 11:00; {heated} Thu 4 Mar 0:00–11:00"
    )
    assert title_of([morning, evening], rows) == f"{heated} Wed 3 Mar 0:00–11:00; {heated} Tue 2 Mar 22:45–24:00"
