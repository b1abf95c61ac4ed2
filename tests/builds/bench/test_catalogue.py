"""Every sum of the catalogue: it says what it is, works its own example in both systems, refuses what cannot be."""

import math
from itertools import product

import pytest

from builds.bench.catalogue import SUMS
from builds.bench.frame.read import read, work_out
from builds.bench.frame.say import answer_said
from builds.bench.frame.units import in_system, unit_in
from builds.bench.guide import guide_text
from builds.readings.engine.kinds_of_work import KINDS
from builds.readings.engine.vocabulary import READINGS
from garage.engine.systems import SYSTEMS
from tests.house.places import ROOT

pytestmark = pytest.mark.plain
ALL = pytest.mark.parametrize("asked", SUMS.values(), ids=SUMS.keys())


@ALL
def test_a_sum_says_what_it_is(asked):
    for said in (asked.title, asked.question, asked.source, asked.assumes, asked.limits, asked.caution, *asked.formula):
        assert len(said) > 4
    assert asked.question.endswith("?")
    assert asked.formula
    for sentence in (asked.assumes, asked.limits, asked.caution):
        assert sentence[0].isupper()
        assert sentence.endswith(".")
    assert len({ask.slug for ask in asked.asks}) == len(asked.asks)


@ALL
def test_a_sum_has_a_place_in_the_work(asked):
    offered = asked.offered
    assert offered.readings or offered.kinds or offered.systems
    assert set(offered.readings) <= set(READINGS)
    assert set(offered.kinds) <= set(KINDS)
    assert set(offered.systems) <= set(SYSTEMS)


@ALL
def test_what_its_work_is_held_against_is_among_its_answers(asked):
    assert asked.offered.checks
    kinds = {answer.slug for answer in work_out(asked, asked.example)[0].answers}
    may_be_missing = {"new_bias", "thread", *(f"{wheel}_turns" for wheel in ("fl", "fr", "rl", "rr"))}
    assert set(asked.offered.checks) - may_be_missing <= kinds


def test_the_guide_is_drawn_from_the_catalogue_as_it_is():
    assert (ROOT / "builds/bench/SUMS.md").read_text() == guide_text(), "stale: manage.py sums --guide"


@ALL
def test_its_example_is_answered_with_a_drawing(asked):
    worked, errors = work_out(asked, asked.example)
    assert not errors
    assert len({answer.slug for answer in worked.answers}) == len(worked.answers)
    for answer in worked.answers:
        assert answer_said(answer, "metric")
    assert worked.drawing.title
    assert worked.drawing.words.endswith(".")
    assert all(math.isfinite(figure) for figure in worked.drawing.bounds)


@ALL
def test_the_same_figures_in_inches_and_pounds_are_answered_alike(asked):
    metric, _ = work_out(asked, asked.example)
    given = read(asked, asked.example).figures
    typed = asked.example | {
        ask.slug: f"{in_system(given[ask.slug], ask.unit, 'imperial'):.12f}"[:20]
        for ask in asked.asks
        if ask.slug in given and ask.unit
    }
    imperial, errors = work_out(asked, typed, "imperial")
    assert not errors
    for one, other in zip(metric.answers, imperial.answers, strict=True):
        if one.value is not None:
            assert other.value == pytest.approx(one.value, rel=1e-6, abs=1e-6)


def figures(asked):
    return [ask for ask in asked.asks if not ask.is_text]


@ALL
def test_what_is_no_figure_is_refused_at_its_field(asked):
    for ask, text in product(figures(asked), ("nan", "inf", "1e400", "x", "1.2.3", "12 parsecs")):
        worked, errors = work_out(asked, asked.example | {ask.slug: text})
        assert (worked, set(errors)) == (None, {ask.slug}), text


@ALL
def test_a_figure_on_its_bound_is_taken_and_the_one_beyond_is_not(asked):
    for ask in figures(asked):
        for bound, beyond in ((ask.least, -1), (ask.most, 1)):
            if bound is not None:
                typed = f"{bound:.6f}".rstrip("0").rstrip(".")
                assert ask.slug not in read(asked, asked.example | {ask.slug: typed}).errors
                over = f"{bound + beyond * max(1e-6, abs(bound) * 1e-6):.9f}"
                assert ask.slug in read(asked, asked.example | {ask.slug: over}).errors
        if ask.above is not None:
            assert ask.slug in read(asked, asked.example | {ask.slug: f"{ask.above:g}"}).errors


@ALL
def test_a_figure_of_another_kind_is_refused(asked):
    for ask in figures(asked):
        other = "3 kg" if unit_in(ask.unit, "metric") not in ("kg", "g") else "3 mm"
        if ask.unit:
            assert ask.slug in read(asked, asked.example | {ask.slug: other}).errors


@ALL
def test_what_is_needed_is_asked_for(asked):
    for ask in figures(asked):
        errors = read(asked, asked.example | {ask.slug: " "}).errors
        assert (ask.slug in errors) == (ask.needed and not ask.default), ask.slug


@ALL
def test_what_counts_things_is_a_whole_number(asked):
    for ask in figures(asked):
        if ask.whole:
            assert read(asked, asked.example | {ask.slug: "4"}).errors == {}
            assert read(asked, asked.example | {ask.slug: "3.5"}).errors == {ask.slug: "Write a whole number."}
