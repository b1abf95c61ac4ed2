"""What the source never does: trust text as markup, style inline, draw paper outside the sheets."""

import ast
import re
from collections import Counter

import pytest

from tests.house.places import APPS, files, shown

TEMPLATES = list(files("*.html", "templates"))
PYTHON = list(files("*.py", *APPS))


@pytest.mark.parametrize("file", TEMPLATES, ids=shown)
def test_templates_hold_no_inline_code_and_trust_no_text(file):
    text = file.read_text()
    assert not re.search(r"\sstyle=|\son[a-z]+=|<style|<script(?![^>]*\bsrc=)|\|\s*safe\b", text)
    assert "autoescape off" not in text
    assert not re.search(r"(src|href)=\"(https?:)?//", text)


@pytest.mark.parametrize("file", TEMPLATES, ids=shown)
def test_no_space_stands_before_a_comma(file):
    """Where a formatter breaks the line between two conditions, `, and` on a condition gets a space before it."""
    assert not re.search(r"\s(\{% (if|elif|else|for|empty|with)[^%]*%\}\s*)+[,;:.)?!]", file.read_text())


@pytest.mark.parametrize("file", TEMPLATES, ids=shown)
def test_every_form_that_writes_carries_its_key(file):
    text = file.read_text()
    for form in re.findall(r"<form[^>]*method=\"post\".*?</form>", text, re.S):
        if "marks/form_keys.html" in form:
            continue
        assert "{% csrf_token %}" in form
        # Signing in and out writes nothing twice: the one is throttled, the other ends itself.
        assert "{% once %}" in form or "data-door" in form


SAYS_NOTHING = {"found", "each", "row"}


def _walked(tree):
    """The names of what loops and comprehensions are about."""
    for node in ast.walk(tree):
        if isinstance(node, ast.For | ast.comprehension):
            yield from (name.id for name in ast.walk(node.target) if isinstance(name, ast.Name))


@pytest.mark.parametrize("file", PYTHON, ids=shown)
def test_a_loop_says_what_it_goes_through(file):
    assert not SAYS_NOTHING.intersection(_walked(ast.parse(file.read_text())))


def test_the_names_of_loops_are_found_in_all_their_forms():
    text = "for a, (b, c) in d:\n    [e for e in f for g in h]\n"
    assert sorted(_walked(ast.parse(text))) == ["a", "b", "c", "e", "g"]


# What the planner is told of has the name of what it is told of; every command is a `Command`.
TOLD_TO_THE_PLANNER = {"Job", "Link", "Person", "Plan", "Station", "Vehicle"}


def _twice(sources):
    """The names of classes at the top of more than one of these sources."""
    names = Counter(node.name for text in sources for node in ast.parse(text).body if isinstance(node, ast.ClassDef))
    return {name for name, times in names.items() if times > 1}


def test_a_class_name_means_one_thing():
    ours = [file for file in PYTHON if "commands" not in file.parts]
    assert _twice(file.read_text() for file in ours) == TOLD_TO_THE_PLANNER


def test_a_class_name_that_stands_twice_is_found():
    assert _twice(["class Rod:\n    class Kind: ...\n", "class Rod: ...\nclass Bar: ...\n"]) == {"Rod"}


# 40 lines are a nudge, more than these a wall.
MOST_LINES = 50


def _long(text):
    functions = (node for node in ast.walk(ast.parse(text)) if isinstance(node, ast.FunctionDef))
    return [node.name for node in functions if node.end_lineno - node.lineno >= MOST_LINES]


@pytest.mark.parametrize("file", PYTHON, ids=shown)
def test_no_function_is_longer_than_a_screen(file):
    assert _long(file.read_text()) == []


def test_a_function_of_one_line_too_many_is_found():
    def text(lines):
        return "def long():\n" + "    pass\n" * (lines - 1)

    assert (_long(text(MOST_LINES)), _long(text(MOST_LINES + 1))) == ([], ["long"])


@pytest.mark.parametrize("file", PYTHON, ids=shown)
def test_python_trusts_no_text_as_markup(file):
    assert not re.search(r"mark_safe|SafeText\(|allow_tags", file.read_text())


@pytest.mark.parametrize("file", PYTHON, ids=shown)
def test_paper_is_drawn_in_sheets_alone(file):
    text = file.read_text()
    if "sheets" not in file.parts and file.name != "sheet.py":
        assert "reportlab" not in text
    if file.name != "kit.py":
        assert "Paragraph(" not in text


@pytest.mark.parametrize("file", [f for f in PYTHON if "views" in f.parts or f.name == "views.py"], ids=shown)
def test_views_fetch_through_the_guards(file):
    assert not re.search(r"\.objects\.(get|all)\(|get_object_or_404", file.read_text())
