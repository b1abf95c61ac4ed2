"""Requests made by hand: whatever is sent to whichever address, the answer is never a fault of ours."""

import itertools
import uuid
import zlib
from collections import Counter

import pytest
from django.db import transaction
from django.forms import (
    BooleanField,
    CharField,
    CheckboxInput,
    ClearableFileInput,
    FileInput,
    Form,
    IntegerField,
)
from django.http import QueryDict
from django.urls import NoReverseMatch, reverse

from tests.house.every_address import TABLE, address

pytestmark = pytest.mark.once

# None, past the whole numbers of 32 and of 64 bits, and past those that a float holds.
NUMBERS = (0, 2**31, 2**63, 10**30)
TEXTS = (
    *("", " ", ";", ":", ",", "0", "-1", "1e999", "nan", "²", "٣", "\0", "\u200b", "\u202e"),
    *("9" * 30, "a" * 5000, "[]", '{"a": 1}', "%00", "../", "<b>", "'", "=1", "1/0", "24:60", "2027-02-30", "é" * 200),
)
ASKED = ("by", "car", "do", "effect", "first", "from", "known", "name", "next", "page", "place", "q", "rows", "second")
OF_ITEMS = ("0", "99999999999999999999", "²", "1-9223372036854775808", "-1", "999999999999999999", "1-1", "1" * 60)
ITEMS = [f"{kind}-{pk}" for kind in ("check", "pack", "press", "joint", "note", "nothing") for pk in OF_ITEMS]
SENT = ("send", "form")
ALIKE = 4


def whole_numbers(name, what, rows):
    """Each whole number of an address in turn made one that no row has."""
    named = rows[what] if what and not what.startswith("?") else ()
    parts = list(named) if isinstance(named, tuple) else [named]
    for place, number in itertools.product(range(len(parts)), NUMBERS):
        if isinstance(parts[place], int):
            try:
                yield reverse(name, args=[*parts[:place], number, *parts[place + 1 :]])
            except NoReverseMatch:  # such an address there is none
                continue


def some(name, many):
    """As many of the texts; another address begins at another place, so that together they try them all."""
    begin = zlib.crc32(name.encode()) % len(TEXTS)
    return list(itertools.islice(itertools.cycle(TEXTS), begin, begin + many))


def send(client, url, data):
    with transaction.atomic():
        answer = client.post(url, {"key": str(uuid.uuid4()), **data})
        transaction.set_rollback(True)
    return answer


@pytest.mark.parametrize("name", TABLE)
def test_a_number_that_no_row_has_is_not_found(part_by_part, rows, name):
    what, _, kind = TABLE[name]
    owner = part_by_part("owner")
    for url in whole_numbers(name, what, rows):
        answer = send(owner, url, {}) if kind in SENT else owner.get(url)
        assert answer.status_code in (404, 405), url


@pytest.fixture
def looked_at(monkeypatch):
    """Which names a page looks at of what it was asked last."""
    names = set()

    class Noting(QueryDict):
        def __init__(self, *told, **more):
            super().__init__(*told, **more)
            names.clear()  # of what was only read in

        def __contains__(self, name):
            names.add(name)
            return super().__contains__(name)

        def __getitem__(self, name):
            names.add(name)
            return super().__getitem__(name)

        def _getlist(self, name, *told, **more):
            names.add(name)
            return super()._getlist(name, *told, **more)

    monkeypatch.setattr("django.core.handlers.wsgi.QueryDict", Noting)
    return names


def test_what_a_page_looks_at_is_noticed(owner, looked_at):
    owner.get("/cars/", {"q": "x"})
    assert looked_at == set()
    owner.get("/find/", {"q": "x"})
    assert "q" in looked_at


@pytest.mark.parametrize("name", [name for name, (_, _, kind) in TABLE.items() if kind in ("read", "form")])
def test_whatever_an_address_is_asked(part_by_part, rows, looked_at, name):
    """All that a page looks at, known here or not; one that looks at nothing answers every text alike."""
    url, owner, asked = address(name, TABLE[name][0], rows), part_by_part("owner"), set(ASKED)
    for text in some(name, 4):
        looked_at.clear()
        assert owner.get(url, dict.fromkeys(sorted(asked), text)).status_code < 500
        if not looked_at:
            break
        asked |= looked_at


@pytest.mark.parametrize("name", [name for name, (_, _, kind) in TABLE.items() if kind == "send"])
def test_whatever_a_button_is_sent_with(part_by_part, rows, name):
    url, owner = address(name, TABLE[name][0], rows), part_by_part("owner")
    words = (
        "at",
        "count",
        "do",
        "got",
        "item",
        "line",
        "mark",
        "next",
        "note",
        "said",
        "seen",
        "state",
        "step",
        "stood",
        "vehicle",
    )
    for text in some(name, 6):
        assert send(owner, url, dict.fromkeys(words, text)).status_code < 500


def plausible(field):
    """Something that such a field takes, so that a neighbour's nasty value is the only one."""
    if isinstance(field.widget, CheckboxInput | FileInput | ClearableFileInput):
        return []
    choices = [str(key) for key, _ in getattr(field, "choices", ()) if not isinstance(key, tuple) and str(key)]
    return choices[:1] or ["1"]


def not_too_many_alike(form):
    """Names of the fields, but of many that are alike, as the ticks of a list, those that stand first."""
    alike = Counter()
    for key, field in form.fields.items():
        sort = type(field), type(field.widget), field.required, getattr(field, "max_length", None)
        alike[sort] += 1
        if alike[sort] <= ALIKE or hasattr(form, f"clean_{key}"):
            yield key


class Ticks(Form):
    name, note, number = CharField(max_length=40), CharField(max_length=80), IntegerField()
    one, two, three, four, five, six = (BooleanField(required=False) for _ in range(6))

    def clean_six(self):
        return self.cleaned_data["six"]


def test_fields_that_differ_are_all_tried():
    assert list(not_too_many_alike(Ticks())) == ["name", "note", "number", "one", "two", "three", "four", "six"]


@pytest.mark.parametrize("name", [name for name, (_, _, kind) in TABLE.items() if kind == "form"])
def test_whatever_a_field_is_sent_with(part_by_part, rows, name):
    """Each field in turn, the others as they stand or as they may be; another nasty text each time."""
    url, owner = address(name, TABLE[name][0], rows), part_by_part("owner")
    answer = owner.get(url)
    form = answer.context.get("form") if answer.status_code == 200 and answer.context else None
    if form is None:
        return
    stands = getattr(form, "standing", {})
    others = {key: stands.get(key) or plausible(field) for key, field in form.fields.items()}
    for key in not_too_many_alike(form):
        for text in some(f"{name} {key}", 2):
            sent = {**others, key: [text], "drawn": getattr(form, "drawn", "")}
            assert send(owner, url, sent).status_code < 500, (key, text)
    for text in some(name, 4):
        sent = {**dict.fromkeys(form.fields, text), "drawn": getattr(form, "drawn", "")}
        assert send(owner, url, sent).status_code < 500


@pytest.mark.parametrize("to", ["ticked", "packed", "taken", "signed", "marked", "said", "open", "_" * 12])
def test_items_that_a_phone_makes_up(cast, rows, to):
    owner, event = cast.client("owner"), rows["event"]
    headers = {"Accept": "application/json"}
    for item in ITEMS:
        sent = {"item": item, "to": to, "seen": "0", "key": str(uuid.uuid4()), "value": "1"}
        assert owner.post(f"/paddock/{event}/write/", sent, headers=headers).status_code in (200, 422), item


def test_items_that_a_phone_makes_up_are_not_found(cast, rows):
    owner, event = cast.client("owner"), rows["event"]
    for item in filter(str.isascii, ITEMS):
        answer = owner.get(f"/paddock/{event}/{item}/", headers={"Accept": "application/json"})
        assert answer.status_code in (200, 404), item


@pytest.mark.parametrize(
    ("line", "field"),
    [(";", "recoat_from"), (" ; ;", "recoat_from"), ("\n", "handle"), (":", "recoat_from"), (";;:", "recoat_from")],
)
def test_a_line_of_a_data_sheet_without_a_time_is_said_at_its_field(cast, rows, line, field):
    """An empty line is none: then a time of some stage is wanted."""
    answer = send(cast.client("owner"), "/products/add/", {"name": "New primer", "recoat_from": line})
    assert answer.status_code == 422
    assert list(answer.context["form"].errors) == [field]


RESERVED = {"key", "csrfmiddlewaretoken", "next", "drawn", "stood"}


def test_no_form_has_a_field_that_bears_the_name_of_its_hidden_parts(part_by_part, rows):
    owner = part_by_part("owner")
    for name in (name for name, (_, _, kind) in TABLE.items() if kind == "form"):
        answer = owner.get(address(name, TABLE[name][0], rows))
        form = answer.context.get("form") if answer.status_code == 200 and answer.context else None
        if form is not None:
            assert not RESERVED & set(form.fields), name
