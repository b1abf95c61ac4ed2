"""One name in four places: address, view, template, and the tests of the noun's own room."""

import ast
import re
from functools import cache

from django.urls import Resolver404, URLPattern, get_resolver, resolve

from tests.house.places import APPS, ROOT, breaking, files, tree_of

# Every noun that an address begins with, in the one room where all of it stands. `garage` and
# `parts` are rooms of their own; `part` and `photo` are halved between the shelf and the work.
NOUNS = {
    "builds.calendar": "calendar",
    "builds.cars": "vehicle",
    "builds.demo": "demo",
    "builds.events": "entry event night",
    "builds.find": "find",
    "builds.first_run": "first_run",
    "builds.gear": "gear",
    "builds.journal": "journal",
    "builds.jobs": "comment hold_point job link skill_loan station_hold",
    "builds.joints": "joint",
    "builds.money": "money",
    "builds.needs": "need",
    "builds.news": "news",
    "builds.packing": "pack",
    "builds.paddock": "paddock",
    "builds.paper": "checklist drive_tag setup story wall",
    "builds.photos": "photo",
    "builds.plan": "log plan",
    "builds.readings": "reading required target",
    "builds.recipes": "recipe",
    "builds.remedies": "remedy trial",
    "builds.scrutineering": "check organiser run",
    "builds.share": "share",
    "builds.shelf": "move owed part want",
    "builds.shop": "cure product shop",
    "builds.sums": "sum",
    "builds.today": "card pull today",
    "builds.visits": "visit",
    "garage": "account backup day_hours device garage health hours person photo sign skill station",
    "parts": "batch code fit interface label part place stock_book",
}


def patterns_below(patterns):
    for pattern in patterns:
        if isinstance(pattern, URLPattern):
            yield pattern
        else:
            yield from patterns_below(pattern.url_patterns)


PATTERNS = list(patterns_below(get_resolver().url_patterns))
VIEWS = {pattern.name: pattern.callback for pattern in PATTERNS}
ROUTES = {pattern.name: str(pattern.pattern) for pattern in PATTERNS}


def room_of(name):
    """Where the view of this address stands: `builds.jobs`, `parts`."""
    parts = VIEWS[name].__module__.split(".")
    return ".".join(parts[: parts.index("views")])


def sources_of(room):
    folder = ROOT / "tests" / room.replace(".", "/")
    return [*folder.rglob("*.py"), *(ROOT / "tests/browser").glob("*.py")]


def constants(tree):
    """Strings that a file gives a name to at its top."""
    return {
        node.targets[0].id: node.value.value
        for node in tree.body
        if isinstance(node, ast.Assign)
        and isinstance(node.targets[0], ast.Name)
        and isinstance(node.value, ast.Constant)
        and isinstance(node.value.value, str)
    }


@cache
def paths_in(source):
    """Strings of a test file as they would be sent: a named start put in, 1 for whatever else varies."""
    return list(_paths(tree_of(source)))


def _paths(tree):
    named = constants(tree)

    def filled(piece):
        if isinstance(piece, ast.Constant):
            return piece.value
        return named.get(piece.value.id, "1") if isinstance(piece.value, ast.Name) else "1"

    for node in ast.walk(tree):
        if isinstance(node, ast.JoinedStr):
            yield "".join(filled(piece) for piece in node.values)
            yield "".join(piece.value if isinstance(piece, ast.Constant) else "1" for piece in node.values)
        elif isinstance(node, ast.Constant) and isinstance(node.value, str):
            yield node.value


@cache
def name_at(path):
    try:
        return resolve(path).url_name
    except Resolver404:
        return ""


def visited_by(source, tails):
    """Addresses that a test file visits: by name, as a whole path, or by a last step such as `keep/`."""
    for path in paths_in(source):
        if path in VIEWS:
            yield path
        if path.startswith("/"):
            if name := name_at(path.split("?")[0]):
                yield name
            else:
                continue
        step = path.split("?")[0].strip("/").rsplit("/", 1)[-1]
        if step in tails:
            yield tails[step]


def visited_in(room, own):
    """The addresses that the tests of a room visit, `own` being its own."""
    steps = {name: ROUTES[name].rstrip("/").rsplit("/", 1)[-1] for name in own}
    once = [step for step in steps.values() if step.isidentifier() and list(steps.values()).count(step) == 1]
    tails = {step: name for name, step in steps.items() if step in once}
    return {name for source in sources_of(room) for name in visited_by(source, tails)}


def test_an_address_is_called_as_its_view():
    assert VIEWS
    assert {name: view.__name__ for name, view in VIEWS.items() if view.__name__ != name} == {}


def test_an_address_stands_in_the_room_of_its_noun():
    nouns = {room: words.split() for room, words in NOUNS.items()}
    astray = {name for name in VIEWS if not any(re.match(rf"{noun}(_|$)", name) for noun in nouns[room_of(name)])}
    assert {name: room_of(name) for name in astray} == {}


def test_no_noun_stands_in_two_rooms_of_an_app():
    for app in APPS:
        nouns = [noun for room, words in NOUNS.items() if room.split(".")[0] == app for noun in words.split()]
        assert len(nouns) == len(set(nouns))


def test_the_tests_of_its_room_visit_an_address():
    """For each room, its addresses that its tests do not visit."""
    missed = {}
    for room in NOUNS:
        own = {name for name in VIEWS if room_of(name) == room}
        missed[room] = own - visited_in(room, own)
    assert {room: names for room, names in missed.items() if names} == {}


def misplaced(template):
    """What is wrong with the name or the room of a template, if anything."""
    *rooms, name = str(template.relative_to(ROOT / "templates").with_suffix("")).split("/")
    # A form shared by adding and changing, and the page that shows what was just made.
    shared = name.removesuffix("_form").removesuffix("_made")
    drawn_by = {name, f"{shared}_add", f"{shared}_edit"} & set(VIEWS)
    if not drawn_by:
        return f"no view is called {name}"
    drawn_in = {room_of(view) for view in drawn_by}
    return "" if drawn_in == {".".join(rooms)} else f"its view stands in {drawn_in}"


def test_a_template_is_called_as_a_view_and_stands_in_its_room():
    own = [file for app in APPS for file in files("*.html", f"templates/{app}")]
    assert breaking([file for file in own if not file.stem.endswith(("_part", "_base"))], misplaced) == {}
