"""What an action refuses, as a view says it."""

import pytest
from django import forms
from django.contrib.messages import get_messages
from django.contrib.messages.storage.cookie import CookieStorage

from garage.actions.refused import Refused
from garage.refusals import refused_aloud, refused_at


class Small(forms.Form):
    name = forms.CharField()
    days = forms.IntegerField()
    stood = forms.CharField(widget=forms.HiddenInput, required=False)


def refused_in(form, field=None, named=""):
    with refused_at(form, field):
        raise Refused("No.", named)
    return form.errors


def form():
    return Small({"name": "a", "days": "1"})


def test_it_stands_where_the_view_says_else_where_the_refusal_names_else_over_the_form():
    assert refused_in(form(), "days", "name") == {"days": ["No."]}
    assert refused_in(form(), named="name") == {"name": ["No."]}
    assert refused_in(form(), named="target") == {"__all__": ["No."]}
    assert refused_in(form(), named="stood") == {"__all__": ["No."]}
    assert refused_in(form()) == {"__all__": ["No."]}


def test_a_fault_is_no_refusal():
    with pytest.raises(ValueError), refused_at(form()):
        raise ValueError


def test_aloud_it_is_a_message(rf):
    request = rf.get("/")
    request._messages = CookieStorage(request)
    with refused_aloud(request):
        raise Refused("Not now.")
    assert [(said.level_tag, str(said)) for said in get_messages(request)] == [("error", "Not now.")]
