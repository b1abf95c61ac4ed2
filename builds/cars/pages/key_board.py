"""The key board: every car kept, with its verdict and where it goes next."""

from collections.abc import Mapping
from zoneinfo import ZoneInfo

from django.urls import reverse

from builds.cars.facts import Fleet
from builds.verdict.engine import verdict
from builds.work.pages import CarCard
from garage.engine.moments import leaving_words
from garage.engine.words import work_words
from garage.models import Entry, Vehicle


def car_cards(fleet: Fleet, left: Mapping[int, int]) -> list[CarCard]:
    """Each with the nearest event that is not over and the minutes of work `left` on it, by its pk; no query."""
    return [_card(car, fleet, left.get(car.pk, 0)) for car in fleet.cars]


def _line(entry: Entry | None, fleet: Fleet) -> str:
    if entry is None:
        return ""
    return leaving_words(entry.event.name, entry.event.due_at, ZoneInfo(fleet.garage.time_zone), fleet.at)


def _card(car: Vehicle, fleet: Fleet, left: int) -> CarCard:
    known = verdict(fleet.facts[car.pk])
    return CarCard(
        pk=car.pk,
        url=reverse("vehicle_page", args=[car.pk]),
        name=car.name,
        tape=car.tape,
        line=_line(fleet.entries.get(car.pk), fleet),
        sentence=known.sentence,
        do_not_drive=known.do_not_drive,
        reasons=tuple(reason.sentence for reason in known.reasons),
        stripe="full" if known.state == "fit" else "",
        word=known.word,
        left=work_words(left) if left else "",
    )
