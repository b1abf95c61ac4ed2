"""Products: what is refused and in which words, how they are stored, how their figures are read."""

import json
from contextlib import nullcontext

import pytest

from builds.cure.engine import (
    CureRule,
    CureTable,
    Product,
    ProductError,
    Stage,
    Temperature,
    chart_warnings,
    product_from_dict,
    product_to_dict,
    ready_at,
    shipped_products,
)

PRIMER = {
    "slug": "grey-primer",
    "name": "Grey primer",
    "minimum": 10,
    "stages": {
        "touch": {"celsius": [10, 20], "hours": [8, 4]},
        "full": {"at": 20, "hours": 100, "factor": 2, "highest": 40},
        "recoat_to": {"hours": 72},
    },
}


def primer(**changes):
    return {**PRIMER, **changes}


def stages(**changes):
    return primer(stages={**PRIMER["stages"], **changes})


def test_plain_data_goes_there_and_back():
    product = product_from_dict(PRIMER)
    assert product_from_dict(json.loads(json.dumps(product_to_dict(product)))) == product
    assert [stage for stage, _ in product.stages] == [Stage.TOUCH, Stage.RECOAT_TO, Stage.FULL]
    assert product.figures("recoat_to") == CureRule(20, 72, 1)


@pytest.mark.parametrize("product", shipped_products().values(), ids=shipped_products().keys())
def test_every_shipped_product_goes_there_and_back_and_says_it_is_an_example(product):
    assert product_from_dict(product_to_dict(product)) == product
    assert product.source
    assert product.note


def test_the_demo_can_count_on_a_primer_and_a_topcoat():
    for slug in ("epoxy-primer", "topcoat-2k"):
        product = shipped_products()[slug]
        assert [stage for stage, _ in product.stages] == list(Stage)
        assert product.limits.minimum == product.minimum == 10


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (primer(colour="grey"), "A product has no “colour”."),
        (primer(slug="Grey Primer"), "“Grey Primer” is no short name"),
        (primer(name="  "), "needs a name"),
        ({k: v for k, v in PRIMER.items() if k != "name"}, "needs its name in words"),
        (primer(stages={}), "at least one stage"),
        (primer(stages=[1]), "a list of names"),
        (primer(minimum="ten"), "“ten” is no number for minimum."),
        (primer(minimum=True), "is no number"),
        (primer(minimum=10**400), "far too large"),
        (primer(minimum=float("nan")), "check the unit"),
        (primer(minimum=500), "check the unit"),
        (primer(minimum=25), "below its minimum"),
        (primer(minimum=None), "needs a minimum temperature"),
        (primer(humidity=0), "A humidity must lie"),
        (primer(dew_margin=-1), "margin above the dew point"),
        (primer(maker_time_only="yes"), "true or false"),
        (primer(maker_time_only=True), "has no stages"),
        (stages(sanded={"hours": 3}), "“sanded” is no stage; the stages are touch,"),
        (stages(touch=4), "needs a table, or a time and a factor"),
        (stages(touch={}), "has no hours"),
        (stages(touch={"hours": 4, "at": 20}), "needs the factor"),
        (stages(touch={"hours": 4, "factor": 2}), "names no temperature, has no “factor”"),
        (stages(touch={"hours": 4, "at": 20, "factor": 0.5}), "not between 1 and 10"),
        (stages(touch={"hours": 4, "at": 20, "factor": 2, "highest": 15}), "highest temperature"),
        (stages(touch={"hours": 0}), "0 hours is not a time"),
        (stages(touch={"celsius": [10], "hours": [8]}), "at least two temperatures"),
        (stages(touch={"celsius": [10, 20], "hours": [8]}), "2 temperatures and 1 times"),
        (stages(touch={"celsius": [20, 10], "hours": [8, 4]}), "must rise"),
        (stages(touch={"celsius": [10, 20], "hours": [4, 8]}), "must not grow as it gets warmer"),
        (stages(touch={"celsius": 10, "hours": [4, 8]}), "needs a list of celsius"),
        (stages(full={"hours": 5}), "Grey primer at 10 °C is fully cured after 5 h, before"),
    ],
)
def test_refused_in_one_sentence(data, words):
    with pytest.raises(ProductError) as refusal:
        product_from_dict(data)
    message = str(refusal.value)
    assert words in message
    assert message.endswith(".")
    assert "\n" not in message


def test_stages_out_of_order_are_refused():
    rule = CureRule(20, 5, 1)
    with pytest.raises(ProductError, match="out of order"):
        Product("x", "X", ((Stage.FULL, rule), (Stage.TOUCH, rule)))
    with pytest.raises(ProductError, match="names a stage twice"):
        Product("x", "X", ((Stage.FULL, rule), (Stage.FULL, rule)))


def test_a_primer_may_take_its_next_coat_before_it_is_touch_dry():
    # As the data sheet of Temacoat Primer has it at 23 °C: touch dry 5 h, next coat from 4 h.
    Product("x", "X", ((Stage.TOUCH, CureRule(23, 5, 1)), (Stage.RECOAT_FROM, CureRule(23, 4, 1))))


def table(minimum=None, stage=Stage.FULL):
    figures = CureTable((10, 20), (8, 4))
    return Product("x", "X", ((stage, figures),), minimum=minimum)


def test_above_the_warmest_entry_it_is_no_faster():
    assert table().hours_at("full", 60) == pytest.approx(4)


def test_above_the_highest_temperature_of_a_rule_it_is_no_faster():
    rule = Product("x", "X", ((Stage.FULL, CureRule(20, 8, 2, highest=30)),), minimum=5)
    assert rule.hours_at("full", 30) == pytest.approx(4)
    assert rule.hours_at("full", 45) == pytest.approx(4)


def test_below_the_coldest_entry_nothing_happens():
    assert table().hours_at("full", 9.999) is None


def test_a_warmer_minimum_cuts_the_table_and_a_colder_one_lengthens_its_line():
    assert table(minimum=15).hours_at("full", 14.999) is None
    assert table(minimum=15).hours_at("full", 15) == pytest.approx(8 / 2**0.5)
    assert table(minimum=0).hours_at("full", 0) == pytest.approx(16)
    assert table(minimum=0).hours_at("full", -0.001) is None
    assert table(minimum=30).hours_at("full", 29) is None
    assert table(minimum=30).hours_at("full", 30) == pytest.approx(4)


def test_the_end_of_a_recoat_window_does_not_wait_for_warmth():
    assert table(stage=Stage.RECOAT_TO).hours_at("recoat_to", -5) == pytest.approx(8)
    assert table(15, Stage.RECOAT_TO).hours_at("recoat_to", -5) == pytest.approx(8 / 2**0.5)


def test_a_stage_without_figures_is_refused():
    with pytest.raises(ProductError, match="X has no time for “touch”; add it from the data sheet"):
        ready_at(table(), "touch", 0, Temperature.fixed(20))


SCREEN = shipped_products()["screen-adhesive"]


def test_bonded_glass_is_never_computed():
    with pytest.raises(ProductError, match="is never computed: enter the maker's time"):
        ready_at(SCREEN, Stage.FULL, 0, Temperature.fixed(23))
    with pytest.raises(ProductError, match="is never computed"):
        ready_at(SCREEN, Stage.RECOAT_FROM, 0, Temperature.fixed(23))
    with pytest.raises(ProductError, match="is never computed"):
        SCREEN.hours_at(Stage.FULL, 23)


def test_bonded_glass_needs_the_conditions_of_its_chart():
    with pytest.raises(ProductError, match="maker's chart is for"):
        product_from_dict({"slug": "s", "name": "S", "maker_time_only": True})


def test_conditions_below_the_chart_are_warned_of():
    assert chart_warnings(SCREEN, celsius=23, humidity=50) == ()
    assert chart_warnings(SCREEN, celsius=28, humidity=60) == ()
    cold, dry = chart_warnings(SCREEN, celsius=10, humidity=50)
    assert cold.startswith("10 °C is below the 23 °C of the maker's chart")
    assert "4.7 g of water per m³, the maker's chart is for 10.3" in dry
    assert chart_warnings(SCREEN, celsius=23, humidity=None) == ()
    with pytest.raises(ProductError, match="does not go by the maker's time"):
        chart_warnings(table(), celsius=10, humidity=50)


@pytest.mark.parametrize(("celsius", "hours", "fits"), [
    ((10, 20), (8, 4), True), ((10, 20), (8, 8), True), ((10, 10), (8, 4), False), ((20, 10), (4, 8), False),
    ((10, 20), (4, 8), False), ((10,), (8,), False), ((10, 20), (8,), False),
])  # fmt: skip
def test_a_table_rises_from_entry_to_entry(celsius, hours, fits):
    with nullcontext() if fits else pytest.raises(ProductError):
        CureTable(celsius, hours)


@pytest.mark.parametrize(("more", "fits"), [
    ({"dew_margin": 0}, True), ({"dew_margin": 0.5}, True), ({"dew_margin": 20}, True),
    ({"dew_margin": -0.1}, False), ({"dew_margin": 20.1}, False),
    ({"humidity": 0}, False), ({"humidity": 0.1}, True), ({"humidity": 100}, True), ({"humidity": 100.1}, False),
])  # fmt: skip
def test_the_weather_it_wants_lies_within_its_bounds(more, fits):
    with nullcontext() if fits else pytest.raises(ProductError):
        Product("primer", "Primer", ((Stage.FULL, CureTable((10, 20), (8, 4))),), **more)
