"""Figures in forms: every form reads a figure as people say it, in the garage's unit or with its own beside it."""

import pytest
from django import forms

from builds.joints.forms.joints import JointForm
from builds.readings.forms.conditions import ConditionsForm
from builds.shop.forms.shop import degrees
from garage.engine.said import LONGEST_SAID, said, said_in, several
from garage.engine.units import QuantityError
from garage.forms.quantities import QuantityField
from garage.models import Garage

FORMS = {"fuel": ConditionsForm, "tyres": ConditionsForm, "joint": JointForm}


def cleaned(field, text, system="metric"):
    field.use(system)
    return field.clean(text)


@pytest.mark.parametrize("system", ["metric", "imperial"])
@pytest.mark.parametrize(
    ("form", "name", "text", "amount"),
    [
        (ConditionsForm, "fuel_ml", "20 l", 20_000),
        (ConditionsForm, "fuel_ml", "20 litres", 20_000),
        (ConditionsForm, "fuel_ml", "5 US gal", 18_927),  # 3.785412 L: NIST SP 811
        (ConditionsForm, "fuel_ml", "5 UK gal", 22_730),  # 4.54609 L: NIST SP 811
        (ConditionsForm, "front_pa", "26 psi", 179_264),
        (ConditionsForm, "rear_pa", "1,9 bar", 190_000),
        (JointForm, "figure_mnm", "77 lb ft", 104_398),
        (JointForm, "figure_mnm", "77ft-lb", 104_398),
        (JointForm, "figure_mnm", "105 Nm", 105_000),
    ],
)
def test_with_its_unit_it_is_the_same_in_every_garage(form, name, text, amount, system):
    assert cleaned(form.base_fields[name], text, system) == amount


@pytest.mark.parametrize(("text", "amount"), [("14.1 cm", 141_000), ("14,1 CM", 141_000), ("1.475 m", 1_475_000),
                                              ("141", 141_000), ("5 1/2 in", 139_700)])  # fmt: skip
def test_a_length(text, amount):
    assert cleaned(QuantityField("length", "µm", 0, 20_000_000), text) == amount
    assert round(said(text, "mm", "µm")) == amount


@pytest.mark.parametrize(("text", "amount"), [("-5", -5000), ("-5 °C", -5000), ("41 °F", 5000), ("21,5 c", 21_500)])
def test_a_temperature(text, amount):
    assert degrees(Garage(units="metric"), "Shop").clean(text) == amount


@pytest.mark.parametrize(("text", "sentence"), [
    ("26 kg", "Write the figure in bar, or with another unit of pressure beside it."),
    ("1,250", "Is that 1250 or 1.250? Write it without a comma."),
    ("26/24", "Is that 1.083? Write it without a stroke."),
    ("4 5/2 psi", "Is that 6.5? Write it without a stroke."),
    ("26 psi or so", "Write the figure in bar, or with another unit of pressure beside it."),
    ("9" * (LONGEST_SAID + 1), f"That is too long for a figure: at most {LONGEST_SAID} characters."),
    ("200 bar", "It must lie between 0 bar and 10 bar."),
])  # fmt: skip
def test_what_is_none_of_it_is_refused_with_a_sentence(text, sentence):
    with pytest.raises(forms.ValidationError) as wrong:
        cleaned(QuantityField("pressure", "Pa", 0, 1_000_000), text)
    assert wrong.value.messages == [sentence]


def test_its_bounds_and_the_ones_beyond():
    field = QuantityField("pressure", "Pa", 100_000, 1_000_000)
    assert [cleaned(field, text) for text in ("1", "10")] == [100_000, 1_000_000]
    for beyond in ("0.99999", "10.00001"):
        with pytest.raises(forms.ValidationError):
            cleaned(field, beyond)


def test_several_at_once_take_the_unit_of_the_last():
    assert several("26/26/24/24 psi") == ["26 psi", "26 psi", "24 psi", "24 psi"]
    assert several("1.9 1.9 1.8 1.8") == ["1.9", "1.9", "1.8", "1.8"]
    assert several("26 psi / 1.8 bar") == ["26 psi", "1.8 bar"]
    assert several("26 psi 24") == ["26 psi", "24"]


OWN = [("85 lb ft", "lbf·ft", 85), ("85 Nm", "N·m", 85), ("8,5", "N·m", 8.5)]
OWN += [("3 turns", "turns", 3), ("3", "turns", 3), ("4", "", 4)]


@pytest.mark.parametrize(("text", "unit", "figure"), OWN)
def test_in_a_unit_of_ones_own_words(text, unit, figure):
    assert said_in(text, unit) == figure


def test_another_unit_than_one_s_own_is_refused():
    with pytest.raises(QuantityError):
        said_in("3 mm", "turns")
