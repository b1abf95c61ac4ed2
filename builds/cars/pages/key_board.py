"""The key board: every car kept, with its verdict and where it goes next."""

from datetime import datetime
from zoneinfo import ZoneInfo

from django.urls import reverse

from builds.verdict.engine import Verdict
from builds.verdict.facts.verdict import verdicts
from builds.work.pages import CarCard
from garage.engine.moments import leaving_words
from garage.facts.entries import first_of_each_car
from garage.models import Entry, Garage, Vehicle


def car_cards(garage: Garage, at: datetime) -> list[CarCard]:
    """Of all cars that are kept, each with the nearest event that is not over."""
    cars = list(Vehicle.objects.in_garage(garage).kept())
    known, zone = verdicts(garage, at, cars), ZoneInfo(garage.time_zone)
    entries = first_of_each_car(Entry.objects.in_garage(garage).upcoming(at).select_related("event"))
    return [_card(car, known[car.pk], _line(entries.get(car.pk), zone, at)) for car in cars]


def _line(entry: Entry | None, zone: ZoneInfo, at: datetime) -> str:
    return leaving_words(entry.event.name, entry.event.due_at, zone, at) if entry else ""


def _card(vehicle: Vehicle, known: Verdict, line: str) -> CarCard:
    return CarCard(
        pk=vehicle.pk,
        url=reverse("vehicle_page", args=[vehicle.pk]),
        name=vehicle.name,
        tape=vehicle.tape,
        line=line,
        sentence=known.sentence,
        do_not_drive=known.do_not_drive,
        reasons=tuple(reason.sentence for reason in known.reasons),
        stripe="full" if known.state == "fit" else "",
    )
