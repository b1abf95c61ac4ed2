"""A car gets its limits in one form; without them the verdict does not know, with them it judges."""

import pytest
from django.db import IntegrityError

from builds.readings.actions import readings
from builds.readings.actions.readings import TargetInput
from builds.readings.facts.kinds import kind_of, kinds_of
from builds.readings.models.target import Target
from builds.readings.pages.setup import setup_sheet
from builds.verdict.facts.verdict import verdict_of
from tests.builds.readings.reading_kit import HOUR, require, take, text, url
from tests.factories import NOW, VehicleFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def car(cast, now):
    return VehicleFactory(garage=cast.garage, name="Heron")


def reading_reasons(car):
    return [reason.sentence for reason in verdict_of(car, NOW).reasons if reason.kind in ("reading", "limit")]


# Figures that nobody would let out: wheel torque of 1 N·m, flat tyres, 9 mm of play, no clearance.
WRONG = {"wheel_torque": 1_000, "tyre_pressures": 0, "bearing_play": 9_000, "lock_clearance": 0}


@pytest.mark.parametrize("kind", WRONG)
def test_without_a_limit_it_is_not_known_and_with_one_it_is_out(owner, cast, car, kind):
    require(car, cast.owner, kind)
    take(car, kind, cast.owner, amount=WRONG[kind])
    (said,) = reading_reasons(car)
    assert said.startswith("No limit says whether it is right: ")
    page = owner.get(url("target_offers", car))
    form = page.context["form"]
    drawn = {name: form.get_initial_for_field(field, name) for name, field in form.fields.items()}
    data = {name: "on" if value is True else value for name, value in drawn.items() if value not in (False, None)}
    if kind == "wheel_torque":
        data |= {"take_wheel_torque_fl": "on", "first_wheel_torque_fl": "110", "second_wheel_torque_fl": "10"}
    assert owner.press(url("target_offers", car), data).status_code == 303
    (said,) = reading_reasons(car)
    assert "Out of its limits: " in said
    assert Target.objects.on(car).of(kind).count() == 4


def test_limits_on_their_own_are_not_known_and_not_unfit(cast, car):
    require(car, cast.owner, "camber")
    take(car, "camber", cast.owner)
    verdict = verdict_of(car, NOW)
    assert [reason.kind for reason in verdict.reasons] == ["limit"]
    assert verdict.state == "not_known" and "1 thing is not known" in verdict.sentence


def test_offers_are_of_what_the_car_must_have_and_are_marked(owner, helper, cast, car):
    address = url("target_offers", car)
    assert "has its limits" in text(owner, address)
    require(car, cast.owner, "tyre_pressures", "belt_geometry", "corner_weights")
    assert helper.get(address).status_code == 403
    page = text(owner, address)
    assert "common practice, no source" in page and "Belt angles and routing, lap straps from level" in page
    assert "Corner weights</label>" not in page and "Tyre pressures</label>" in page
    assert "between 1.2 and 3 bar" in page and 'value="1.2"' in page and 'value="3"' in page
    assert f'href="{address}"' in text(owner, url("reading_list", car))
    assert f'href="{address}"' not in text(helper, url("reading_list", car))


def test_nothing_ticked_no_figure_and_a_lower_upper_end_are_refused(owner, cast, car):
    require(car, cast.owner, "tyre_pressures")
    address, name = url("target_offers", car), "tyre_pressures_fl"
    assert "Tick at least one limit." in owner.press(address, {}).content.decode()
    assert owner.press(address, {f"sort_{name}": "never", f"first_{name}": "2"}).status_code == 422
    answer = owner.press(address, {f"take_{name}": "on", f"sort_{name}": "least"})
    assert answer.context["form"].errors[f"first_{name}"] == ["Write the figure, or do not tick it."]
    data = {f"take_{name}": "on", f"sort_{name}": "between", f"first_{name}": "2", f"second_{name}": "1.9"}
    answer = owner.press(address, data)
    assert answer.status_code == 422 and 'value="1.9"' in answer.content.decode()
    answer = owner.press(address, {**data, f"second_{name}": ""}).content.decode()
    assert "2 bar, and no second figure yet" in answer and "between 2 and" not in answer
    assert owner.press(address, {**data, f"second_{name}": "2"}).status_code == 303
    assert {target.mark for target in Target.objects.on(car)} == {"chosen"}


def test_what_a_car_has_already_stays(cast, car):
    kinds = kinds_of(cast.garage)
    readings.set_targets(car, kinds["camber"], {"fl": TargetInput("least", -3000, None, "-3")})
    offered = TargetInput("between", -5000, 1000, "-5", "1", mark="practice")
    readings.accept_limits(car, kinds, {"camber": {"fl": offered, "fr": offered}})
    assert dict(Target.objects.on(car).values_list("field", "sort")) == {"fl": "least", "fr": "between"}


def test_each_way_of_saying_it_stands_on_page_and_paper(owner, cast, car):
    take(car, "bearing_play", cast.owner, amount=60)
    data = {
        **{"sort_fl": "most", "first_fl": "0,05", "mark": "maker"},
        **{"sort_fr": "least", "first_fr": "0"},
        **{"sort_rl": "between", "first_rl": "0", "second_rl": "0.1"},
        **{"sort_rr": "off", "first_rr": "0.05", "second_rr": "0.02"},
    }
    assert owner.press(url("target_edit", car, "bearing_play"), data).status_code == 303
    page = text(owner, url("reading_page", car, "bearing_play"))
    for words in ("at most 0.05 mm", "at least 0 mm", "0 mm to 0.1 mm", "0.05 mm ± 0.02 mm", "the maker&#x27;s figure"):
        assert words in page
    assert "Front left 0.06 mm, wanted at most 0.05 mm." in page
    assert "0,05" in text(owner, url("target_edit", car, "bearing_play"))
    (kind,) = setup_sheet(car, NOW).kinds
    assert kind.values[0].target == "at most 0.05 mm" and kind.limits == "the maker's figure"


def test_one_figure_is_enough_for_an_open_limit(owner, car):
    data = {"sort_fl": "most", "first_fl": "1", "second_fl": "2"}
    answer = owner.press(url("target_edit", car, "bearing_play"), data)
    assert answer.context["form"].errors == {"second_fl": ["One figure is enough here: leave this empty."]}
    assert owner.press(url("target_edit", car, "bearing_play"), {**data, "sort_fl": "never"}).status_code == 422


@pytest.mark.parametrize(
    "wrong",
    [
        {"sort": "least", "second": 1, "second_typed": "1"},
        {"sort": "off", "second": -1, "second_typed": "-1"},
        {"sort": "off", "second": None, "second_typed": ""},
        {"sort": "between", "second": 99, "second_typed": "99"},
        {"sort": "about"},
        {"sort": "least", "mark": "rumour"},
    ],
)
def test_the_database_refuses_what_the_form_does(car, wrong):
    told = {"vehicle": car, "kind": "camber", "field": "fl", "amount": 100, "typed": "0.1"}
    with pytest.raises(IntegrityError):
        Target.objects.create(**{**told, **wrong})


def test_an_open_limit_is_drawn_to_the_edge_of_the_sheet(owner, cast, car):
    for hours, amount in ((48, 60), (1, 80)):
        take(car, "bearing_play", cast.owner, at=NOW - hours * HOUR, amount=amount)
    kind = kind_of(cast.garage, "bearing_play")
    readings.set_targets(car, kind, {"fl": TargetInput("most", 70, None, "0.07")})
    (trend,) = owner.get(url("reading_page", car, "bearing_play")).context["trends"]
    ((top, height),) = trend.bands
    assert top + height == pytest.approx(trend.sheet.height - trend.sheet.bottom)


def test_an_angle_is_typed_on_a_keypad_that_has_a_minus(owner, cast, car):
    fields = owner.get(url("target_edit", car, "camber")).context["form"].fields
    assert fields["first_fl"].widget.attrs["inputmode"] == "text"
    fields = owner.get(url("target_edit", car, "ride_height")).context["form"].fields
    assert fields["first_fl"].widget.attrs["inputmode"] == "decimal"


def test_a_figure_without_a_unit_keeps_its_own_beside_one_with_a_unit(owner, cast, car):
    """A garage that measures otherwise from then on saves the form as it stands: the limit stays."""
    data = {"sort_fl": "between", "first_fl": "20 psi", "second_fl": "2"}
    assert owner.press(url("target_edit", car, "tyre_pressures"), data).status_code == 303
    limit = Target.objects.get()
    cast.garage.units = "imperial"
    cast.garage.save()
    form = owner.get(url("target_edit", car, "tyre_pressures")).context["form"]
    assert (form.fields["first_fl"].initial, form.fields["second_fl"].initial) == ("20 psi", "29.01")
    data |= {"second_fl": "29.01"}
    assert owner.press(url("target_edit", car, "tyre_pressures"), data).status_code == 303
    assert Target.objects.get().second == pytest.approx(limit.second, abs=100)
