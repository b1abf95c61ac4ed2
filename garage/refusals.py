"""Refusals of actions as a view says them: at the field of its form, or as a message on the page it leads back to."""

from collections.abc import Iterator
from contextlib import contextmanager

from django.contrib import messages
from django.forms import BaseForm
from django.http import HttpRequest

from garage.actions.refused import Refused


@contextmanager
def refused_at(form: BaseForm, field: str | None = None) -> Iterator[None]:
    """What is refused within stands at that field, else at the one that the refusal names, else over the form."""
    try:
        yield
    except Refused as refused:
        named = refused.field if refused.field in form.fields else None
        form.add_error(field or named, str(refused))


@contextmanager
def refused_aloud(request: HttpRequest) -> Iterator[None]:
    """What is refused within is a message on the next page."""
    try:
        yield
    except Refused as refused:
        messages.error(request, str(refused))
