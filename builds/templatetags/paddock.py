"""Template tags of the event's day: what can be said of a line, as buttons."""

from collections.abc import Iterable

from django import template
from django.utils.html import format_html_join
from django.utils.safestring import SafeString

from builds.paddock.pages.rows import Act

register = template.Library()
BUTTON = '<button name="to" value="{}" data-asks="{}"{}>{}<span class="unseen">: {}</span></button>'
HIDDEN = SafeString(" hidden")


@register.simple_tag
def say_buttons(acts: Iterable[Act], name: str) -> SafeString:
    """Of the line of that name; drawn here, since an event's day has five hundred of them."""
    told = ((act.to, act.asks, HIDDEN if act.hidden else "", act.label, name) for act in acts)
    return format_html_join("\n", BUTTON, told)
