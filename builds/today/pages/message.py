"""Tonight's plan in five lines, to be copied into a chat."""

from datetime import datetime

from builds.today.pages.next_events import NextEvent
from builds.today.pages.people import PersonToday
from garage.engine.moments import day_words

MOST = 5


def message_of(
    garage: str, local: datetime, people: tuple[PersonToday, ...], entries: tuple[NextEvent, ...]
) -> tuple[str, ...]:
    """At most five lines: where and which day, who does what, and the next event; `local` in the garage's time."""
    head = f"{garage}, {day_words(local.date())}"
    tail = [f"{entries[0].event}: leaves {entries[0].leaves}."] if entries else []
    there = [person for person in people if person.is_in]
    room = MOST - 1 - len(tail)
    lines = [_line(person) for person in there]
    if len(lines) > room:
        rest = ", ".join(f"{person.name} {person.tonight}" for person in there[room - 1 :])
        lines = [*lines[: room - 1], f"{rest}."]
    return (head, *(lines or ["Nobody is in today."]), *tail)


def _line(person: PersonToday) -> str:
    cards = [*person.in_hand, *([person.next.card] if person.next else [])]
    titles = [f"“{card.title}” ({card.vehicle})" for card in cards[:2]]
    return f"{person.name} {person.tonight}: {', then '.join(titles) or 'nothing next'}."
