"""Every form that changes what stands: of two who write at once, none is passed over."""

import json
import zlib

import pytest
from django import forms
from django.db import transaction
from django.forms import CheckboxInput, HiddenInput

from garage.forms.edits import EditForm
from tests.house.every_address import TABLE, address

pytestmark = pytest.mark.once

FORMS = [name for name, (_, _, kind) in TABLE.items() if kind == "form"]
# What these draw is a proposal for something new, and stands nowhere yet; or one's own, proven by a password.
PROPOSES = {
    "account_sign_in": "one's own e-mail, changed with the password of the same person",
    "day_hours_add": "today, for a day that differs",
    "gear_add": "the car that one came from",
    "hours_tonight": "the end of the evening's hours",
    "job_add": "the car that one came from",
    "night_add": "the usual hours of the first evening",
    "part_move": "one, from where it lies",
    "reading_add": "the conditions of the one before",
    "reading_many": "that whoever asks measures, for readings to be written down",
    "recipe_put": "the jobs of a recipe, to be written down",
}
EDITS = [
    *("account_page", "batch_columns", "batch_row", "check_has", "entry_edit", "event_edit", "garage_settings"),
    *("gear_edit", "gear_life", "gear_needed", "gear_rules", "hours_edit", "job_edit", "joint_edit", "link_edit"),
    *("money_event", "money_vehicle", "need_edit", "night_edit", "organiser_edit", "part_edit", "person_edit"),
    *("news_edit", "photo_edit"),
    *("place_edit", "product_edit", "reading_ages", "recipe_edit", "required_edit", "shop_days", "station_edit"),
    *("target_edit", "vehicle_edit"),
]
# The pages of these draw no form that could be looked into.
NO_FORM = {
    "entry_delete": "a question, once its event has begun",
    "event_delete": "a question with nothing to fill in",
    "first_run": "what leads through an empty garage, and this one has cars",
    "person_link": "a link, made anew each time",
    "person_erase": "takes a yes, and who it is about stands in its address",
}
# Versions that are none: all forms read theirs alike, and together try them all.
MALFORMED = ("", "[]", "{", '{"a": 1}', "[" * 100_000)
EARLIER, TYPED = "what stood there earlier", "what the second one types"


def drawn(client, url):
    """The form of a page as its first look draws it, or None."""
    answer = client.get(url)
    return answer.context.get("form") if answer.status_code == 200 and answer.context else None


def stands(form):
    """What a form draws that its class alone would not."""
    return {
        name
        for name, field in form.fields.items()
        if not field.disabled
        and form.get_initial_for_field(field, name) not in (None, "", [], False, ())
        and (name not in form.base_fields or name in form.initial)
    }


def sent(form, **other):
    """What a browser would send of an untouched form, and `other` in its place."""
    return {**form.standing, **other}


def sort_of(name, form):
    """How the form at an address (its name) meets a second writer."""
    if form is None:
        return "no form"
    if getattr(form, "drawn", ""):
        return "versioned"
    return "bare" if stands(form) or name.endswith("_edit") else "new"


def test_every_form_that_draws_what_stands_says_what_it_was_drawn_with(part_by_part, rows):
    owner, found = part_by_part("owner"), {}
    for name in FORMS:
        found.setdefault(sort_of(name, drawn(owner, address(name, TABLE[name][0], rows))), set()).add(name)
    assert found["versioned"] == set(EDITS)
    assert found["bare"] == set(PROPOSES)
    assert found["no form"] == set(NO_FORM)


class Plain(forms.Form):
    name = forms.CharField()


class Versioned(EditForm, Plain):
    pass


@pytest.mark.parametrize(("name", "form", "sort"), [
    ("bolt_edit", Versioned(initial={"name": "M8"}), "versioned"),
    ("bolt_edit", Plain(initial={"name": "M8"}), "bare"),
    ("bolt_edit", Plain(), "bare"),
    ("bolt_turn", Plain(initial={"name": "M8"}), "bare"),
    ("bolt_add", Plain(), "new"),
    ("bolt_edit", None, "no form"),
])  # fmt: skip
def test_an_edit_without_a_version_is_found(name, form, sort):
    assert sort_of(name, form) == sort


def one_field(form):
    """A field whose value a test can make up."""
    return next(
        name
        for name, field in form.fields.items()
        if not field.disabled and not isinstance(field.widget, CheckboxInput | HiddenInput)
    )


# One's own wishes, which nobody else writes: ticks alone, and two ticks that differ are one too many.
ONLY_TICKS = {"news_edit"}


@pytest.mark.parametrize("name", [name for name in EDITS if name not in ONLY_TICKS])
class TestASecondWriter:
    @pytest.fixture
    def page(self, part_by_part, rows, name):
        url, owner = address(name, TABLE[name][0], rows), part_by_part("owner")
        with transaction.atomic():
            yield url, owner, drawn(owner, url)
            transaction.set_rollback(True)

    def test_gets_both_versions_where_both_wrote(self, page):
        url, owner, form = page
        field = one_field(form)
        was = json.dumps({**form.standing, field: [EARLIER]})
        answer = owner.press(url, {**sent(form, **{field: [TYPED]}), "drawn": was})
        assert answer.status_code == 422
        said = answer.context["form"]
        assert [version.typed.startswith(TYPED) for version in said.both] == [True]
        assert "Two of you changed this" in answer.content.decode()
        assert drawn(owner, url).standing == form.standing

    def test_keeps_what_the_first_wrote_elsewhere(self, page):
        url, owner, form = page
        field = one_field(form)
        was = json.dumps({**form.standing, field: [EARLIER]})
        with transaction.atomic():
            answer = owner.press(url, {**sent(form, **{field: [EARLIER]}), "drawn": was})
        if answer.status_code == 422:  # refused for what stands there by itself
            assert not answer.context["form"].both
            assert answer.context["form"].data.getlist(field) == form.standing[field]
        else:
            assert answer.status_code == 303

    def test_without_a_version_changes_nothing(self, page, name):
        url, owner, form = page
        for was in (None, MALFORMED[zlib.crc32(name.encode()) % len(MALFORMED)]):
            data = sent(form, **({} if was is None else {"drawn": was}))
            answer = owner.post(url, {"key": "7f1d3a52-7f0b-4c0e-9d6b-0a2f6f2d3c11", **data})
            assert answer.status_code == 422, was
            assert answer.context["form"].came_without, was
        assert drawn(owner, url).standing == form.standing
