"""Any product in any weather: later is never sooner, warmer never slower, and tables agree."""

import math

from hypothesis import given
from hypothesis import strategies as st

from builds.cure.engine import (
    CureRule,
    CureTable,
    Heat,
    Product,
    ShopReading,
    Stage,
    Temperature,
    product_from_dict,
    product_to_dict,
    progress,
    ready_at,
    ready_table,
    shop_temperature,
)

SLOT, SLOTS = 30, 150
HORIZON = float(SLOT * SLOTS)
celsius = st.integers(-50, 400).map(lambda tenths: tenths / 10)


@st.composite
def tables(draw):
    temperatures = sorted(draw(st.sets(celsius, min_size=2, max_size=5)))
    hours = st.lists(st.floats(0.2, 60), min_size=len(temperatures), max_size=len(temperatures))
    return CureTable(tuple(temperatures), tuple(sorted(draw(hours), reverse=True)))


@st.composite
def products(draw):
    stage = draw(st.sampled_from(list(Stage)))
    if draw(st.booleans()):
        figures, minimum = draw(tables()), draw(st.none() | celsius)
    else:
        minimum = draw(celsius)
        above = st.floats(0, 20)
        at = minimum + draw(above)
        highest = draw(st.none() | above.map(lambda more: at + more))
        figures = CureRule(at, draw(st.floats(0.2, 60)), draw(st.floats(1, 4)), highest)
    return Product("any", "Any", ((stage, figures),), minimum=minimum)


@st.composite
def courses(draw):
    kind = draw(st.sampled_from(["fixed", "steps", "straight", "smooth"]))
    if kind == "fixed":
        return Temperature.fixed(draw(celsius))
    values = draw(st.lists(celsius, min_size=2, max_size=8))
    if kind == "steps":
        return Temperature.steps([(draw(st.integers(10, 1500)), value) for value in values])
    gaps = draw(st.lists(st.integers(10, 1500), min_size=len(values), max_size=len(values)))
    minutes = [sum(gaps[:k]) for k in range(len(values))]
    points = list(zip(minutes, values, strict=True))
    return Temperature.through(points, smooth=kind == "smooth")


@st.composite
def shops(draw):
    course = draw(courses())
    minute = st.integers(0, int(min(course.end, HORIZON)))
    heats = draw(st.lists(st.builds(Heat, minute, minute, celsius), max_size=3))
    readings = draw(st.lists(st.builds(ShopReading, minute, celsius), max_size=4))
    keep = draw(st.booleans())
    return shop_temperature(course, heats=heats, readings=readings, keep_correction=keep)


def only_stage(product):
    return product.stages[0][0]


def ready(product, start, shop):
    found = ready_at(product, only_stage(product), start, shop, HORIZON)
    return math.inf if found is None else found


starts = st.floats(-500, HORIZON)


@given(products(), shops(), starts, st.floats(0, 2000))
def test_a_later_start_is_never_ready_sooner(product, shop, start, later):
    assert ready(product, start, shop) <= ready(product, start + later, shop) + 1e-3


def warmed(shop, by):
    shapes = tuple(shape.shifted(by) for shape in shop.shapes)
    return Temperature(shop.begins, shapes, shop.end)


@given(products(), shops(), starts, st.floats(0, 20))
def test_warmer_is_never_slower(product, shop, start, by):
    assert ready(product, start, warmed(shop, by)) <= ready(product, start, shop) + 1e-3


@given(products(), shops(), starts)
def test_nothing_is_ready_before_it_starts_and_done_means_done(product, shop, start):
    found = ready(product, start, shop)
    assert found > start
    if found < math.inf:
        assert progress(product, only_stage(product), start, found, shop) >= 1 - 1e-8


@given(products(), shops())
def test_the_table_says_what_each_start_says(product, shop):
    stage = only_stage(product)
    table = ready_table(product, stage, shop, slot_minutes=SLOT, slots=SLOTS)
    assert len(table) == SLOTS + 1
    assert table == sorted(table)
    for slot in range(0, SLOTS + 1, 7):
        start, entry = float(SLOT * slot), table[slot]
        assert entry >= slot
        if entry <= SLOTS:
            assert progress(product, stage, start, float(SLOT * entry), shop) >= 1 - 1e-8
            assert ready(product, start, shop) <= SLOT * entry + 1e-3
        last_too_soon = min(entry - 1, SLOTS)
        assert progress(product, stage, start, float(SLOT * last_too_soon), shop) < 1
        assert ready(product, start, shop) > SLOT * last_too_soon - 1e-3


@given(products(), shops(), st.floats(0, HORIZON), st.floats(0, 1000), st.floats(0, 1000))
def test_progress_adds_up(product, shop, start, first, second):
    stage = only_stage(product)
    middle, end = start + first, start + first + second
    parts = [(start, middle), (middle, end), (start, end)]
    one, two, whole = (progress(product, stage, a, b, shop) for a, b in parts)
    assert math.isclose(one + two, whole, rel_tol=1e-7, abs_tol=1e-9)


@given(tables(), shops(), starts)
def test_a_window_of_one_table_never_closes_later_than_it_opens(table, shop, start):
    both = ((Stage.RECOAT_FROM, table), (Stage.RECOAT_TO, table))
    product = Product("any", "Any", both)
    opens, closes = (ready_at(product, stage, start, shop) for stage, _ in both)
    if opens is not None:
        assert closes is not None
        assert closes <= opens + 1e-3


@given(products())
def test_every_product_goes_there_and_back(product):
    again = product_from_dict(product_to_dict(product))
    stage = only_stage(product)
    for at in (-10, 3.3, 20, 45):
        assert again.hours_at(stage, at) == product.hours_at(stage, at)
