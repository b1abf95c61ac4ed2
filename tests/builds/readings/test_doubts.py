"""A doubtful figure is a question at its field: sent again with a yes it is kept, by hand and by phone."""

import pytest

from builds.readings.actions import readings
from builds.readings.actions.readings import Typed
from builds.readings.facts.kinds import kind_of
from builds.readings.models.reading import Reading, ReadingValue
from garage.actions.refused import Refused
from tests.builds.readings.reading_kit import take, text, url
from tests.factories import NOW, VehicleFactory

pytestmark = pytest.mark.django_db
PRESSURES = {"value_fl": "40", "value_fr": "2", "value_rl": "2", "value_rr": "2", "instrument": "gauge"}


@pytest.fixture
def car(cast, now):
    return VehicleFactory(garage=cast.garage, name="Heron")


def test_it_is_asked_once_and_kept_on_a_yes(helper, car):
    address = url("reading_add", car, "tyre_pressures")
    answer = helper.press(address, PRESSURES)
    assert answer.status_code == 422 and not Reading.objects.exists()
    assert "40 bar: is that right?" in answer.context["form"].errors["value_fl"][0]
    page = answer.content.decode()
    assert 'value="40"' in page and 'name="sure"' in page and 'value="fl:4000000"' in page
    assert helper.press(address, {**PRESSURES, "sure": "fl:4000000"}).status_code == 303
    assert ReadingValue.objects.get(field="fl").amount == 4_000_000


@pytest.mark.parametrize("sure", ["", "yes", "on", "fr:4000000"])
def test_a_yes_to_another_figure_is_none(helper, car, sure):
    answer = helper.press(url("reading_add", car, "tyre_pressures"), {**PRESSURES, "sure": sure})
    assert answer.status_code == 422 and not Reading.objects.exists()


def test_nothing_is_asked_of_a_likely_figure(helper, car):
    page = url("reading_add", car, "tyre_pressures")
    assert 'name="sure"' not in text(helper, page)
    assert helper.press(page, {**PRESSURES, "value_fl": "32 psi"}).status_code == 303
    assert "2.206 bar (32 psi)" in text(helper, url("reading_page", car, "tyre_pressures"))


def test_the_action_refuses_a_doubtful_figure_until_somebody_is_sure(cast, car):
    kind = kind_of(cast.garage, "corner_weights")
    values = {corner: Typed(1_000, "1", "kg") for corner in ("fl", "fr", "rl", "rr")}
    with pytest.raises(Refused, match="1 kg: is that right") as refused:
        readings.take(car, kind, values, by=cast.owner, at=NOW)
    assert refused.value.field == "value_fl" and not Reading.objects.exists()
    readings.take(car, kind, values, by=cast.owner, at=NOW, sure=True)
    assert Reading.objects.count() == 1


def test_what_fits_the_last_one_in_another_unit_is_asked_about(helper, cast, car):
    take(car, "corner_weights", cast.owner, amount=150_000)
    data = {f"value_{corner}": "330" for corner in ("fl", "fr", "rl", "rr")}
    answer = helper.press(url("reading_add", car, "corner_weights"), data)
    assert "330 lb would be 149.68 kg" in answer.context["form"].errors["value_fl"][0]


TOE = {"instrument": "toe plates"}


def test_total_toe_is_halved_and_the_other_field_left_empty(helper, car):
    address = url("reading_add", car, "toe_front")
    assert helper.press(address, {**TOE, "value_fl": "0.301 total"}).status_code == 303
    assert list(ReadingValue.objects.values_list("field", "amount")) == [("fl", 150), ("fr", 151)]
    page = text(helper, url("reading_page", car, "toe_front"))
    assert "0.15° (0.301 total)" in page and "0.3°" in page
    again = f"{address}?from={Reading.objects.get().pk}"
    assert 'value="0.15"' in text(helper, again) and 'value="0.151"' in text(helper, again)


@pytest.mark.parametrize(
    ("more", "field", "sentence"),
    [
        ({"value_fl": "0.3 total", "value_fr": "0.1"}, "value_fr", "Leave this empty: the total is of both wheels."),
        ({"value_fl": "0.3"}, "value_fr", "This field is required."),
        ({"value_fl": "wide total"}, "value_fl", "Write a number such as 12.5 or 12,5, without marks for thousands."),
    ],
)
def test_half_told_toe_is_refused(helper, car, more, field, sentence):
    answer = helper.press(url("reading_add", car, "toe_front"), {**TOE, **more})
    assert answer.status_code == 422 and answer.context["form"].errors[field] == [sentence]
