"""Limits that required readings still want: which figures of a kind go together, and what they are called."""

from typing import NamedTuple

from builds.readings.engine.reading_kind import shipped_kind
from builds.readings.engine.wanted_limits import wanted_limits


class Line(NamedTuple):
    kind: object
    without_limit: tuple


def lacking(slug, *fields):
    kind = shipped_kind(slug)
    return Line(kind, tuple(field for field in kind.fields if not fields or field.slug in fields))


def named(*lines):
    return [(want.name, want.label, tuple(field.slug for field in want.fields)) for want in wanted_limits(lines)]


def test_the_corners_of_a_kind_go_together_under_its_name_with_its_sign():
    assert named(lacking("camber")) == [("camber_fl", "Camber (top out +)", ("fl", "fr", "rl", "rr"))]


def test_one_of_several_figures_goes_by_its_own_name():
    (name, label, fields), *_ = named(lacking("camber", "rr"))
    figure = next(field for field in shipped_kind("camber").fields if field.slug == "rr")
    assert (name, fields) == ("camber_rr", ("rr",))
    assert label == f"Camber, {figure.label.lower()} (top out +)"


def test_the_only_figure_of_a_kind_goes_by_the_kind():
    ((name, label, fields),) = named(lacking("pedal_travel"))
    kind = shipped_kind("pedal_travel")
    assert (name, fields) == ("pedal_travel_travel", ("travel",))
    assert (label == kind.label) == (len(kind.figures) == 1)


def test_figures_that_are_offered_other_limits_stand_apart_and_none_where_nothing_is_lacking():
    assert [fields for _, _, fields in named(lacking("belt_geometry"))] == [("shoulder",), ("lap",)]
    assert named(Line(shipped_kind("camber"), ())) == [] == named()
