"""Lists of choices are drawn as Django's own templates draw them, but for the space between."""

import re

import pytest
from django import forms
from django.forms.renderers import DjangoTemplates

from garage.forms.choices_drawn import DRAWN, FormRenderer

CHOICES = [("", "none"), (1, '<Heron> & "co"'), ("Europe", [("a'b", "A"), ("b", "B")])]
ATTRS = {"class": "short", "required": True, "data-was": '<i> "j"', "hidden": False}


def close(html):
    return re.sub(r"\s*([<>])\s*", r"\1", re.sub(r"\s+", " ", html))


@pytest.mark.parametrize("attrs", [{}, ATTRS, {"id": "id_of", **ATTRS}])
@pytest.mark.parametrize("value", [[], ["1"], ["a'b", "1"]])
@pytest.mark.parametrize(
    "widget", [forms.Select, forms.SelectMultiple, forms.RadioSelect, forms.CheckboxSelectMultiple]
)
def test_a_list_and_each_of_its_choices(widget, value, attrs):
    of = widget(choices=CHOICES)
    ours, theirs = (of.render("of", value, attrs, renderer) for renderer in (FormRenderer(), DjangoTemplates()))
    assert close(ours) == close(theirs)
    assert of.template_name in DRAWN
    for option in of.subwidgets("of", value, attrs):
        if option["template_name"] in DRAWN:
            ours, theirs = (
                renderer.render(option["template_name"], {"widget": option})
                for renderer in (FormRenderer(), DjangoTemplates())
            )
            assert close(ours) == close(theirs)


def test_everything_else_comes_from_django():
    assert forms.TextInput().render("of", "x", {}, FormRenderer()) == forms.TextInput().render("of", "x", {})
