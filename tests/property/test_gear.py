"""Gear and its dates: time never mends what has run out, and nothing passes without a date."""

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from garage.engine.gear import (
    KINDS,
    STANDARDS,
    WAYS,
    DateRule,
    GearItem,
    Printed,
    judge,
    last_valid_day,
    printed_from,
    printed_words,
)

DAYS = st.dates(date(1990, 1, 1), date(2090, 12, 31))
RULES = st.builds(DateRule, st.sampled_from(sorted(WAYS)), st.integers(0, 12))
MEANINGS = st.sampled_from(["made", "until", "serviced"])


@st.composite
def printed(draw: st.DrawFn) -> Printed:
    day, precision = draw(DAYS), draw(st.sampled_from(["day", "month", "year"]))
    if precision != "day":
        day = day.replace(day=1)
    return Printed(day.replace(month=1) if precision == "year" else day, precision)


ITEMS = st.builds(
    GearItem,
    st.sampled_from(sorted(KINDS)),
    st.sampled_from(["", *STANDARDS]),
    st.none() | printed(),
    MEANINGS,
    st.booleans(),
)


@given(ITEMS, RULES, DAYS, st.integers(0, 20_000))
def test_a_later_day_never_mends_what_has_run_out(item, rule, day, later):
    first, after = judge(item, rule, day), judge(item, rule, day + timedelta(days=later))
    if first.state in ("out", "struck"):
        assert after.state == first.state
    if first.state == "soon":
        assert after.state in ("soon", "out")


@given(ITEMS, RULES, DAYS)
def test_nothing_passes_undated_struck_or_past_its_last_day(item, rule, day):
    found = judge(item, rule, day)
    if item.struck or item.printed is None:
        assert not found.passes
    if found.last_day is not None and found.last_day < day:
        assert not found.passes
    if found.passes and found.last_day is None:
        assert KINDS[item.kind].endless


@given(printed(), MEANINGS, st.integers(0, 12), st.sampled_from(sorted(WAYS)))
def test_a_year_more_never_ends_sooner(label, meaning, years, way):
    shorter = last_valid_day(label, meaning, DateRule(way, years), DateRule("exact", 2))
    longer = last_valid_day(label, meaning, DateRule(way, years + 1), DateRule("exact", 2))
    assert shorter <= longer


@given(printed())
def test_what_was_typed_is_read_back(label):
    assert printed_from(printed_words(label)) == label


@given(st.text(max_size=30))
def test_any_text_is_a_date_or_a_sentence(text):
    for tyre in (False, True):
        try:
            assert printed_from(text, tyre=tyre).precision in ("day", "month", "year", "week")
        except ValueError as wrong:
            assert str(wrong).endswith(".")
