"""The key board: every car kept, with its verdict and where it goes next."""

from collections.abc import Iterable
from datetime import datetime
from zoneinfo import ZoneInfo

from django.urls import reverse

from builds.verdict.engine import Verdict
from builds.verdict.facts.verdict import verdicts
from builds.work.pages import CarCard
from garage.engine.moments import moment_words
from garage.models import Entry, Event, Garage, Vehicle


def next_events(garage: Garage, at: datetime) -> dict[int, Event]:
    """The nearest event that is not over, by the pk of each car entered for one."""
    found: dict[int, Event] = {}
    for entry in Entry.objects.in_garage(garage).upcoming(at).select_related("event"):
        found.setdefault(entry.vehicle_id, entry.event)
    return found


def event_line(event: Event | None, zone: ZoneInfo, at: datetime) -> str:
    if event is None:
        return ""
    verb = "leaves" if event.due_at > at else "was due to leave"
    return f"{event.name}, {verb} {moment_words(event.due_at, zone, at)}"


def car_card(vehicle: Vehicle, found: Verdict, line: str = "") -> CarCard:
    return CarCard(
        pk=vehicle.pk,
        url=reverse("vehicle_page", args=[vehicle.pk]),
        name=vehicle.name,
        tape=vehicle.tape,
        line=line,
        sentence=found.sentence,
        do_not_drive=found.do_not_drive,
        reasons=tuple(reason.sentence for reason in found.reasons),
        stripe="full" if found.state == "fit" else "",
    )


def car_cards(garage: Garage, at: datetime, vehicles: Iterable[Vehicle] | None = None) -> list[CarCard]:
    cars = list(Vehicle.objects.in_garage(garage).kept() if vehicles is None else vehicles)
    found, events = verdicts(garage, at, cars), next_events(garage, at)
    zone = ZoneInfo(garage.time_zone)
    return [car_card(car, found[car.pk], event_line(events.get(car.pk), zone, at)) for car in cars]
