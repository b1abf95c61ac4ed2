"""A fault is put into the function that is loaded, and the function that it lies in is the one that is named."""

import sys

import pytest

from tests.mutants.live import Loaded, faulty
from tests.mutants.mutate import mutants

SOURCE = """
from functools import cache

def passed(function):
    def asked(many):
        return function(many) and many > 1
    return asked

@cache
def less(many):
    return many < 9

@passed
def both(many):
    return [less(one) for one in range(3 + many)]

last = lambda many: many
"""


@pytest.fixture
def module(tmp_path, monkeypatch):
    file = tmp_path / "garage_of_one.py"
    file.write_text(SOURCE)
    monkeypatch.syspath_prepend(tmp_path)
    monkeypatch.setattr("tests.mutants.live.APPS", ("garage_of_one",))
    yield __import__("garage_of_one"), file
    del sys.modules["garage_of_one"]


def fault(after):
    return next(mutant for mutant in mutants(SOURCE) if mutant.after == after)


def test_the_function_that_says_something_else_is_named(module):
    named = {mutant.after: faulty(module[1], mutant)[0] for mutant in mutants(SOURCE)}
    assert named["many <= 9"] == {"less"}
    assert named["many >= 1"] == {"passed.<locals>.asked"}
    assert named["4"] == {"both"}


def test_a_function_behind_a_cache_says_what_the_fault_says(module):
    loaded, file = module
    assert not loaded.less(9)
    Loaded().put(file, faulty(file, fault("many <= 9"))[1])
    assert loaded.less(9)


def test_one_that_was_made_within_another_too(module):
    loaded, file = module
    assert not loaded.both(1)
    Loaded().put(file, faulty(file, fault("many >= 1"))[1])
    assert loaded.both(1)
