"""What the source never does: trust text as markup, style inline, draw paper outside the sheets."""

import ast
import re
from collections import Counter

from django.template import TemplateSyntaxError
from django.template.loader import get_template

from tests.house.places import APPS, ROOT, breaking, files, text_of, tree_of

TEMPLATES = list(files("*.html", "templates"))
PYTHON = list(files("*.py", *APPS))

INLINE = re.compile(r"\sstyle=|\son[a-z]+=|<style|<script(?![^>]*\bsrc=)")
TRUSTED = re.compile(r"\|\s*safe\b|autoescape off")
ELSEWHERE = re.compile(r"(src|href)=\"(https?:)?//")


def held(pattern, file):
    """What a file holds of a pattern."""
    return [match[0] for match in re.finditer(pattern, text_of(file))]


def test_templates_hold_no_inline_code_and_trust_no_text():
    for pattern in (INLINE, TRUSTED, ELSEWHERE):
        assert breaking(TEMPLATES, lambda file, pattern=pattern: held(pattern, file)) == {}


def compiled(file):
    """What is wrong with a template that nobody could draw; None of the others."""
    try:
        get_template(str(file.relative_to(ROOT / "templates")))
    except TemplateSyntaxError as wrong:
        return str(wrong)
    return None


def test_every_template_can_be_drawn():
    """One that no test draws is compiled too: it may lack the tags that it takes from elsewhere."""
    assert breaking(TEMPLATES, compiled) == {}


def test_what_templates_may_not_hold_is_found():
    assert all(map(INLINE.search, (' style="a"', " onclick=", "<style>", "<script>let a</script>")))
    assert not INLINE.search('<script src="a.js"></script>')
    assert all(map(TRUSTED.search, ("{{ a|safe }}", "{{ a | safe }}", "{% autoescape off %}")))
    assert all(map(ELSEWHERE.search, ('src="//a"', 'href="https://a"')))
    assert not ELSEWHERE.search('href="/a"')


def unread(file):
    """What is wrong with a template by itself, such as a filter that it does not load; one within another too."""
    try:
        get_template(str(file.relative_to(ROOT / "templates")))
    except TemplateSyntaxError as wrong:
        return str(wrong)
    return ""


def test_every_template_can_be_read_by_itself():
    assert breaking(TEMPLATES, unread) == {}


def test_no_space_stands_before_a_comma():
    """Where a formatter breaks the line between two conditions, `, and` on a condition gets a space before it."""
    spaced = re.compile(r"\s(?:\{% (?:if|elif|else|for|empty|with)[^%]*%\}\s*)+[,;:.)?!]")
    assert breaking(TEMPLATES, lambda file: held(spaced, file)) == {}


def _keyless(file):
    """The forms of a template that write and carry no key."""
    for form in re.findall(r"<form[^>]*method=\"post\".*?</form>", text_of(file), re.S):
        # Signing in and out writes nothing twice: the one is throttled, the other ends itself.
        once = "{% once %}" in form or "data-door" in form
        if "marks/form_keys.html" not in form and not ("{% csrf_token %}" in form and once):
            yield form


def test_every_form_that_writes_carries_its_key():
    assert breaking(TEMPLATES, lambda file: list(_keyless(file))) == {}


SAYS_NOTHING = {"found", "each", "row"}


def _walked(tree):
    """The names of what loops and comprehensions are about, in Python."""
    for node in ast.walk(tree):
        if isinstance(node, ast.For | ast.comprehension):
            yield from (name.id for name in ast.walk(node.target) if isinstance(name, ast.Name))


def _walked_in_template(text):
    """The names of what its loops are about, and those that it hands to a piece of another file."""
    for names in re.findall(r"{%\s*for\s+(.+?)\s+in\s", text):
        yield from re.split(r"\s*,\s*", names)
    for handed in re.findall(r"{%\s*(?:with|include\s+\S+\s+with)\s+(.+?)%}", text, re.S):
        yield from re.findall(r"(\w+)=", handed)


def test_a_loop_says_what_it_goes_through():
    assert breaking(PYTHON, lambda file: SAYS_NOTHING.intersection(_walked(tree_of(file)))) == {}
    assert breaking(TEMPLATES, lambda file: SAYS_NOTHING.intersection(_walked_in_template(text_of(file)))) == {}


def test_the_names_of_loops_are_found_in_all_their_forms():
    text = "for a, (b, c) in d:\n    [e for e in f for g in h]\n"
    assert sorted(_walked(ast.parse(text))) == ["a", "b", "c", "e", "g"]
    text = '{% for a, b in c %}{% include "d.html" with e=f g=h only %}{% with i=j %}{% endwith %}{% endfor %}'
    assert list(_walked_in_template(text)) == ["a", "b", "e", "g", "i"]


# What the planner is told of has the name of what it is told of; every command is a `Command`.
TOLD_TO_THE_PLANNER = {"Job", "Link", "Person", "Plan", "Station", "Vehicle"}


def _twice(sources):
    """The names of classes at the top of more than one of these sources (trees)."""
    names = Counter(node.name for tree in sources for node in tree.body if isinstance(node, ast.ClassDef))
    return {name for name, times in names.items() if times > 1}


def test_a_class_name_means_one_thing():
    ours = [file for file in PYTHON if "commands" not in file.parts]
    assert _twice(map(tree_of, ours)) == TOLD_TO_THE_PLANNER


def test_a_class_name_that_stands_twice_is_found():
    texts = "class Rod:\n    class Kind: ...\n", "class Rod: ...\nclass Bar: ...\n"
    assert _twice(map(ast.parse, texts)) == {"Rod"}


# 40 lines are a nudge, more than these a wall.
MOST_LINES = 50


def _long(tree):
    functions = (node for node in ast.walk(tree) if isinstance(node, ast.FunctionDef))
    return [node.name for node in functions if node.end_lineno - node.lineno >= MOST_LINES]


def test_no_function_is_longer_than_a_screen():
    assert breaking(PYTHON, lambda file: _long(tree_of(file))) == {}


def test_a_function_of_one_line_too_many_is_found():
    def text(lines):
        return ast.parse("def long():\n" + "    pass\n" * (lines - 1))

    assert (_long(text(MOST_LINES)), _long(text(MOST_LINES + 1))) == ([], ["long"])


def test_python_trusts_no_text_as_markup():
    assert breaking(PYTHON, lambda file: held(r"mark_safe|SafeText\(|allow_tags", file)) == {}


def test_paper_is_drawn_in_sheets_alone():
    drawn = [file for file in PYTHON if "sheets" not in file.parts and file.name != "sheet.py"]
    assert breaking(drawn, lambda file: held("reportlab", file)) == {}
    written = [file for file in PYTHON if file.name != "kit.py"]
    assert breaking(written, lambda file: held(r"Paragraph\(", file)) == {}


def test_views_fetch_through_the_guards():
    views = [file for file in PYTHON if "views" in file.parts or file.name == "views.py"]
    assert breaking(views, lambda file: held(r"\.objects\.(get|all)\(|get_object_or_404", file)) == {}
