"""Refusals of actions as a view says them: at the field of its form, or as a message on the page it leads back to."""

from collections.abc import Iterator
from contextlib import contextmanager

from django.contrib import messages
from django.forms import BaseForm
from django.http import HttpRequest

from garage.actions.refused import Refused


@contextmanager
def refused_at(form: BaseForm, field: str | None = None) -> Iterator[None]:
    """What is refused within stands at that field, else at the one that the refusal names.

    Over the form where it names none that is seen.
    """
    try:
        yield
    except Refused as refused:
        seen = refused.field in form.fields and not form[refused.field].is_hidden
        form.add_error(field or (refused.field if seen else None), str(refused))


@contextmanager
def refused_aloud(request: HttpRequest) -> Iterator[None]:
    """What is refused within is a message on the next page."""
    try:
        yield
    except Refused as refused:
        say_refused(request, str(refused))


def say_refused(request: HttpRequest, sentence: str) -> None:
    """A message on the next page: nothing was done, and the journal has no line of it."""
    messages.error(request, sentence)
    request.refused = True
