"""Tonight's plan in five lines, to be copied into a chat."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from builds.today.pages.next_events import NextEvent
from builds.today.pages.people import PersonToday
from garage.engine.moments import day_words

MOST, MOST_JOBS = 5, 6


@dataclass(frozen=True)
class EveningJob:
    """A job (title) on a car (its name) that somebody has this evening, and whether it is for safety."""

    title: str
    vehicle: str
    safety: bool


Evenings = Mapping[int, Sequence[EveningJob]]


def message_of(
    garage: str,
    evening: date,
    people: tuple[PersonToday, ...],
    entries: tuple[NextEvent, ...],
    evenings: Evenings,
    *,
    stops: tuple[str, ...] = (),
) -> tuple[str, ...]:
    """At most five lines: where and which evening, who does what, and the next event.

    What must `stop` comes before all of that, each in a line more.

    `evenings` are by person (pk) what he has this evening, in its order: the same as on his job cards.
    """
    head = f"{garage}, {day_words(evening)}"
    tail = [f"{entries[0].event}: leaves {entries[0].leaves}."] if entries else []
    there = [person for person in people if person.is_in]
    room = MOST - 1 - len(tail)
    if len(there) > room:  # who has something for safety keeps his line
        there.sort(key=lambda person: not any(job.safety for job in evenings.get(person.pk, ())))
    lines = [_line(person, evenings.get(person.pk, ())) for person in there]
    if len(lines) > room:
        rest = ", ".join(f"{person.name} {person.tonight}" for person in there[room - 1 :])
        lines = [*lines[: room - 1], f"{rest}."]
    return (head, *stops, *(lines or ["Nobody is in today."]), *tail)


def _line(person: PersonToday, evening: Sequence[EveningJob]) -> str:
    if evening:
        titles = _told(evening)
    else:
        cards = [*person.in_hand, *([person.next.card] if person.next else [])]
        titles = [f"“{card.title}” ({card.vehicle})" for card in cards[:2]]
    return f"{person.name} {person.tonight}: {', then '.join(titles) or 'nothing next'}."


def _told(evening: Sequence[EveningJob]) -> list[str]:
    """In the order of the evening; where it is cut, what is for safety stays."""
    first = sorted(range(len(evening)), key=lambda place: (not evening[place].safety, place))[:MOST_JOBS]
    titles = [f"“{evening[place].title}” ({evening[place].vehicle})" for place in sorted(first)]
    more = len(evening) - len(titles)
    return [*titles, *([f"{more} more"] if more else [])]
