"""The addresses of a made garage that are read: every one that the house test of addresses knows."""

from collections.abc import Iterator
from datetime import timedelta

from builds.scrutineering.actions import check_lists
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job
from builds.work.models.link import Link, StationHold
from builds.work.models.need import Need
from builds.work.models.states import State
from garage.actions import shares
from garage.models import Entry, Station
from parts.models import Part, Place
from tests.benchmarks.pages.base import Made
from tests.house.every_address import TABLE, address

# Addresses that name what the made garage has none of, that answer once only, or draw nothing.
LEFT_OUT = frozenset(
    {
        *("photo_add", "photo_page", "photo_file", "photo_edit", "batch_page", "batch_columns", "batch_progress"),
        *("batch_row", "plan_progress", "trial_page", "first_run", "sign_in", "sign_in_link", "health"),
        *("paddock_manifest", "paddock_worker", "organiser_edit", "interface_add"),
    }
)


def pages(made: Made) -> Iterator[tuple[str, str]]:
    """Name and path of each, forms as they open too; of cars, jobs and parts those with the longest history."""
    rows = _rows(made)
    for name, (what, _, kind) in TABLE.items():
        key = what.removeprefix("?")
        if kind in ("read", "form") and name not in LEFT_OUT and (not key or key in rows):
            yield name, address(name, what, rows)


def _rows(made: Made) -> dict[str, object]:
    garage, at = made.garage, made.at
    entry = Entry.objects.in_garage(garage).upcoming(at).select_related("event", "vehicle").first()
    check_lists.make(entry, by=made.owner, at=at - timedelta(days=1))
    car = entry.vehicle
    job = Job.objects.on(car).open().filter(state=State.OPEN, hold_points__isnull=False).first()
    part = made_part(made)
    token = shares.make(by=made.owner, at=at, days=3, vehicle=car)[1]
    return {
        "vehicle": car.pk,
        "measured": car.pk,
        "measured_kind": (car.pk, "camber"),
        "reading": car.readings.last().pk,
        "joint": car.joints.first().pk,
        "event": entry.event_id,
        "packed_event": garage.events.filter(pack_list__isnull=False).last().pk,
        "entry": entry.pk,
        "ran": entry.pk,
        "check": entry.check_lists.first().items.first().pk,
        "job": job.pk,
        "link": Link.objects.in_garage(garage).filter(before__vehicle=car).first().pk,
        "hold_point": HoldPoint.objects.filter(job=job).first().pk,
        "station": Station.objects.in_garage(garage).first().pk,
        "station_hold": StationHold.objects.in_garage(garage).first().pk,
        "need": Need.objects.in_garage(garage).open().first().pk,
        "recipe": "brake-overhaul",
        "product": "epoxy-primer",
        "person": made.members[0].pk,
        "gear": car.gear.first().pk,
        "part": part.pk,
        "part_verb": (part.pk, "fit"),
        "code": part.code,
        "spot": Place.objects.in_garage(garage).filter(kind="bin").first().pk,
        "token": token,
    }


def made_part(made: Made) -> Part:
    return Part.objects.in_garage(made.garage).filter(number="WM-00001").get()
