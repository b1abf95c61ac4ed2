"""Template tags: the key of a write, a form of one button, words on a condition, states, ranks, amounts, moments."""

from datetime import datetime
from functools import lru_cache

from django import template
from django.template import Context
from django.utils import timezone
from django.utils.html import format_html
from django.utils.safestring import SafeString

from garage import clock, keys
from garage.engine.moments import moment_words
from garage.engine.words import duration_words, work_words
from garage.public import only_here
from garage.sheets.qr_picture import qr_picture

register = template.Library()


@register.simple_tag
def once() -> SafeString:
    """The hidden key that makes a double tap count once: new each time a form is drawn."""
    return format_html('<input type="hidden" name="key" value="{}">', keys.drawn(clock.now()))


@register.inclusion_tag("marks/act.html", takes_context=True)
def act(context: Context, url: str, label: str, **more: object) -> dict[str, object]:
    """A form of one button: `{% act stop_url "Stop" kind="main" %}`. What else it takes stands in its template."""
    return {"request": context["request"], "url": url, "label": label, **more}


@register.inclusion_tag("marks/link_out.html")
def link_out(address: str, label: str) -> dict[str, object]:
    """An address to hand on: to copy, and as a code to scan."""
    return {"address": address, "label": label, "code": qr_picture(address), "only_here": only_here(address)}


@register.simple_tag
def car_name(name: object, tape: str) -> SafeString:
    """A car's name in a line, the ring of its tape before it; whoever hears the page hears the colour after it."""
    words = '<span class="ring-inline tape-{}" aria-hidden="true"></span>{}<span class="unseen">, {} tape</span>'
    return format_html(words, tape, name, tape)


SAFETY_MARK = SafeString('<svg aria-hidden="true"><use href="#mark-safety" /></svg>')
STATE_WORDS = {
    "half": "in hand",
    "dashed": "done, not signed",
    "full": "signed",
    "cure": "curing",
    "hold": "on hold",
    "dropped": "dropped",
}


@register.filter
def stripe_word(stripe: str) -> str:
    """What a bolt's stripe says of its job."""
    return STATE_WORDS.get(stripe, "open")


@register.simple_tag
@lru_cache(maxsize=1000)
def state(stripe: str, word: str = "") -> SafeString:
    """A job's state in a line: a bolt, striped as the tag is, and the word, else the stripe's own.

    A page has hundreds of them, and of ranks, so that each is drawn once.
    """
    drawn = '<span class="state"><svg class="bolt" aria-hidden="true"><use href="#bolt-{}" /></svg>{}</span>'
    return format_html(drawn, stripe or "none", word or stripe_word(stripe))


@register.simple_tag
@lru_cache(maxsize=1000)
def rank(slug: str, urgent_from: str = "") -> SafeString:
    """How urgent a job is, and the title of the job whose rank it counts by; safety has a mark of its own."""
    mark = SAFETY_MARK if slug == "safety" else ""
    drawn = format_html('<span class="rank rank-{}">{}{}</span>', slug, mark, slug)
    if not urgent_from:
        return drawn
    return format_html('{}\n<span class="rank-from">“{}” waits for it</span>', drawn, urgent_from)


@register.filter
def after(words: object, before: str) -> str:
    """Words that are not always there, after what leads to them: `{{ joint.thread|after:", " }}`."""
    return f"{before}{words}" if words else ""


@register.filter
def then(condition: object, words: str) -> str:
    """Words that stand there on a condition: `{{ part.single|then:", one of a kind" }}`."""
    return words if condition else ""


@register.filter
def counted(value: int) -> str:
    """`1,000`."""
    return f"{value:,}"


@register.filter
def minutes(value: int | None) -> str:
    return "" if value is None else duration_words(value)


@register.filter
def work(value: int) -> str:
    """Minutes that hands work: hours, never days."""
    return work_words(value)


@register.filter
def moment(value: datetime | None) -> str:
    """`Tue 24 Nov 18:30` in the garage's time; the year when it is not this one."""
    if value is None:
        return ""
    return moment_words(value, timezone.get_current_timezone(), clock.now())
