"""Facts are data: no module of theirs holds a word for people, makes one, or knows an address."""

import ast
import re

import pytest

from tests.house.places import APPS, ROOT, breaking, files, shown, tree_of


def _layer(file):
    """Whose parts are those of its address in Python, such as `builds`, `verdict`, `facts`, `jobs`."""
    return file.relative_to(ROOT).with_suffix("").parts


FACTS = [file for file in files("*.py", *APPS) if "facts" in _layer(file) and "engine" not in _layer(file)]
# A slug, a lookup of a query, the name of a class or of a column, a mark that stands alone.
CODE = re.compile(r'-?[a-z0-9]+([_.-]+[a-z0-9]+)*_?|_?[A-Z][A-Za-z0-9]*[A-Z][A-Za-z0-9]*|"[a-z]+"|[^A-Za-z]*')
SAYS = re.compile(r"_words$|_sentence$|^(label|sentence|words|format)$|^get_\w+_display$")
ADDRESSES = {"django.urls", "django.shortcuts", "garage.http"}


def _docstrings(tree):
    for node in ast.walk(tree):
        if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef) and ast.get_docstring(node) is not None:
            yield id(node.body[0].value)


def told(tree):
    """What a module of facts may not hold, each with its line: words, what makes or says words, addresses."""
    docstrings = set(_docstrings(tree))
    for node in ast.walk(tree):
        if isinstance(node, ast.JoinedStr):
            yield node.lineno, "words put together"
        elif isinstance(node, ast.Constant) and isinstance(node.value, str):
            if id(node) not in docstrings and not CODE.fullmatch(node.value):
                yield node.lineno, node.value
        elif isinstance(node, ast.Attribute) and SAYS.search(node.attr):
            yield node.lineno, node.attr
        elif isinstance(node, ast.ImportFrom):
            yield from ((node.lineno, name.name) for name in node.names if SAYS.search(name.name))
            if node.module in ADDRESSES:
                yield node.lineno, node.module


THINKS = re.compile(r"\.(engine|bench|planner|odds)\b")


def computed(tree):
    """The properties of a module of facts that ask an engine, each with its line."""
    imported = [
        node for node in ast.walk(tree) if isinstance(node, ast.ImportFrom) and THINKS.search(node.module or "")
    ]
    thinks = {name.asname or name.name for node in imported for name in node.names}
    for function in (node for node in ast.walk(tree) if isinstance(node, ast.FunctionDef)):
        if any(isinstance(mark, ast.Name) and mark.id.endswith("property") for mark in function.decorator_list):
            called = (node.func for line in function.body for node in ast.walk(line) if isinstance(node, ast.Call))
            if any(isinstance(name, ast.Name) and name.id in thinks for name in called):
                yield function.lineno, function.name


def test_the_facts_of_every_app_are_found():
    assert {shown(file).split("/")[0] for file in FACTS} == set(APPS)


def test_facts_hold_no_words():
    assert breaking(FACTS, lambda file: list(told(tree_of(file)))) == {}


def test_facts_compute_nothing_when_they_are_asked():
    assert breaking(FACTS, lambda file: list(computed(tree_of(file)))) == {}


def test_a_fact_that_computes_is_found():
    text = """from builds.work.engine.urgency import inherited
class Work:
    @cached_property
    def urgency(self): return [inherited(self.rows)]
    @property
    def rank(self): return self.rows[0]
"""
    assert list(computed(ast.parse(text))) == [(4, "urgency")]


PLANTED = {
    "a sentence": ('why = "A job still needs it."', "A job still needs it."),
    "one word": ('why = "Owed"', "Owed"),
    "two small words": ('name = "gear dates"', "gear dates"),
    "a word with a sign": ('why = "fitted?"', "fitted?"),
    "put together": ('why = f"{job} is owed"', "words put together"),
    "put together of names alone": ('why = f"{job}{car}"', "words put together"),
    "filled in": ('why = "owed".format(job)', "format"),
    "a label": ("why = state.label", "label"),
    "a sentence passed on": ("why = judged.sentence", "sentence"),
    "what a choice is called": ("why = job.get_state_display()", "get_state_display"),
    "a maker of words": ("from garage.clock import clock_words", "clock_words"),
    "an address": ("from django.urls import reverse", "django.urls"),
}
CODES = ["pk", "-finished_at", "finished_at__gte", "first_run", "belt-dates", "", ", ", "BooleanField", '"crash"']


@pytest.mark.parametrize("planted", PLANTED)
def test_what_facts_may_not_hold_is_found(planted):
    line, said = PLANTED[planted]
    assert said in [what for _, what in told(ast.parse(f'"""Facts."""\n\n{line}\n'))]


@pytest.mark.parametrize("code", CODES)
def test_what_a_query_is_made_of_is_no_word(code):
    assert not list(told(ast.parse(f'"""Facts of a thing."""\n\ncode = {code!r}\n')))
