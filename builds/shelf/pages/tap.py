"""What can be done with a part where it lies: one tap, and the page it opens."""

from dataclasses import dataclass

from django.urls import reverse
from django.utils.http import urlencode


@dataclass(frozen=True)
class Tap:
    """One thing that can be done with what lies in a place."""

    label: str
    url: str


def move_url(part: int, verb: str, **asked: int | None) -> str:
    """The page of a move with what is known filled in."""
    known = {name: value for name, value in asked.items() if value is not None}
    url = reverse("part_move", args=[part, verb])
    return f"{url}?{urlencode(known)}" if known else url
