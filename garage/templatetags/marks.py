"""Template tags: the key of a write, amounts of time, moments in words."""

from datetime import datetime

from django import template
from django.utils import timezone
from django.utils.html import format_html
from django.utils.safestring import SafeString

from garage import clock, keys
from garage.engine.moments import moment_words
from garage.engine.words import duration_words

register = template.Library()


@register.simple_tag
def once() -> SafeString:
    """The hidden key that makes a double tap count once: new each time a form is drawn."""
    return format_html('<input type="hidden" name="key" value="{}">', keys.drawn(clock.now()))


@register.filter
def minutes(value: int | None) -> str:
    return "" if value is None else duration_words(value)


@register.filter
def moment(value: datetime | None) -> str:
    """`Tue 24 Nov 18:30` in the garage's time; the year when it is not this one."""
    if value is None:
        return ""
    return moment_words(value, timezone.get_current_timezone(), clock.now())
