"""A heater shortens a cure."""

import pytest

from builds.cure.models.shop import HeatedHours, ShopDay
from builds.remedies.deeds.heat import HeatDeed
from garage.actions.refused import Refused
from tests.builds.plan.plan_kit import enter, evenings, job, planned, text
from tests.builds.remedies.remedy_kit import DAY, TODAY, TOMORROW, address, apply, card, makes_it
from tests.factories import NOW, LinkFactory


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
    assert "The shop is heated to 20 °C Tue 2 Mar 19:00" in body
    assert "A heater wants fresh air" in body
    apply(owner, entry, card(owner, entry, "heat"))
    assert HeatedHours.objects.filter(day=TODAY).exists()
    assert makes_it(entry)


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
