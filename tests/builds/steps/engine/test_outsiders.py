"""Whose name may stand for a look from outside: a person's, and nobody's who is of this garage."""

import pytest

from builds.steps.engine.outsiders import refuse_outsider

HERE = ["Tove", "Ines Møller", "Omar", "Jo"]


@pytest.mark.parametrize("name", [
    ".", "?", "x", "T", "-- --", "12", "nobody", "Nobody", "me", "Me.", "myself", "somebody", "no one", "n/a",
    "a friend", "my mate", "the owner", "himself", "unknown", "X X", "o_o",
])  # fmt: skip
def test_what_names_nobody(name):
    assert "names nobody" in str(refuse_outsider(name, HERE))


@pytest.mark.parametrize("name", [
    "Tove", "tove", "TOVE", "Tóve", "Tove.", " tove ", "Tove H", "Tove H.", "H Tove", "Ines", "Ines M.", "I. Møller",
    "Ines Moller", "ines möller", "InesMøller", "Ómar", "Omar B. C.", "jo", "T.ove",
    "Mr Tove", "Uncle Omar", "Tove Tove", "T\u043eve", "\u039fmar",
])  # fmt: skip
def test_who_is_of_this_garage(name):
    assert "of this garage" in str(refuse_outsider(name, HERE))


@pytest.mark.parametrize(
    "name", ["Pella", "Pella of Kiln Lane", "Tove Berg", "Jo Omarsen", "Li", "Ødegård", "Mei Ling", "李娜", "Tom"]
)
def test_a_person_from_outside(name):
    assert refuse_outsider(name, HERE) is None


def test_where_nobody_is_yet_any_person():
    assert refuse_outsider("Tove", []) is None
