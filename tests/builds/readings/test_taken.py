"""What a reading, its strike and a kind of one's own are refused for, whatever page asked for it."""

from datetime import timedelta

import pytest

from builds.readings.actions import readings
from builds.readings.actions.readings import Typed
from builds.readings.facts.kinds import kind_of
from builds.readings.models.reading import Reading, ReadingValue
from builds.readings.models.target import Target
from garage.actions.refused import Refused
from tests.factories import NOW, VehicleFactory

TOE = {"fl": Typed(30_000, "0.5", "mm"), "fr": Typed(30_000, "0.5", "mm")}


@pytest.fixture
def car(cast):
    return VehicleFactory(garage=cast.garage, name="Heron")


def take(car, by, values=TOE, at=NOW, **more):
    return readings.take(car, kind_of(car.garage, "toe_front"), values, by=by, at=at, sure=True, **more)


def test_it_has_every_figure_of_its_kind_and_no_other(cast, car):
    with pytest.raises(Refused, match="Write down at least one value"):
        take(car, cast.owner, {})
    with pytest.raises(Refused, match="has no value called rl"):
        take(car, cast.owner, {**TOE, "rl": TOE["fl"]})
    with pytest.raises(Refused, match="is missing"):
        take(car, cast.owner, {"fl": TOE["fl"]})
    assert not Reading.objects.exists()
    take(car, cast.owner)
    assert ReadingValue.objects.count() == 2


def test_it_was_taken_by_now(cast, car):
    with pytest.raises(Refused, match="That time is still to come") as refused:
        take(car, cast.owner, taken_at=NOW + timedelta(seconds=1))
    assert refused.value.field == "taken_at"
    assert take(car, cast.owner, taken_at=NOW).at == NOW


def test_it_is_struck_out_once_with_words_by_whoever_took_it_or_the_owner(cast, car):
    first, second = take(car, cast.owner), take(car, cast.helper)
    with pytest.raises(Refused, match="only the owner strikes out another's"):
        readings.strike(first, by=cast.helper, at=NOW, because="the scale was wet")
    with pytest.raises(Refused, match="Write down in words why") as refused:
        readings.strike(second, by=cast.helper, at=NOW, because="12345")
    assert refused.value.field == "because"
    readings.strike(second, by=cast.helper, at=NOW, because=" the scale was wet ")
    with pytest.raises(Refused, match="is struck out already"):
        readings.strike(second, by=cast.owner, at=NOW, because="the scale was wet")
    readings.strike(first, by=cast.owner, at=NOW, because="the scale was wet")
    assert set(Reading.objects.values_list("struck_because", flat=True)) == {"the scale was wet"}


def test_a_kind_of_ones_own_has_a_name_that_none_has(cast, car):
    readings.add_kind(cast.garage, name="Plug gap", unit="mm")
    for name in ("PLUG GAP", "Camber"):
        with pytest.raises(Refused, match="There is a") as refused:
            readings.add_kind(cast.garage, name=name)
        assert refused.value.field == "name"
    assert readings.add_kind(cast.stranger.garage, name="Plug gap", unit="mm", is_number=False).unit == ""


def test_limits_that_are_accepted_leave_those_that_are_there(cast, car):
    kind = kind_of(cast.garage, "toe_front")
    own, offered = (readings.TargetInput("most", amount, None, str(amount)) for amount in (1, 2))
    readings.set_targets(car, kind, {"fl": own})
    readings.accept_limits(car, {kind.key: kind}, {kind.key: {"fl": offered, "fr": offered}})
    assert dict(Target.objects.values_list("field", "amount")) == {"fl": 1, "fr": 2}
    readings.set_targets(car, kind, {"fr": own})
    assert dict(Target.objects.values_list("field", "amount")) == {"fr": 1}
