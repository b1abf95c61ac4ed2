"""What tests of gear share: a piece, what a car must have, a crash, the reasons."""

from datetime import date, timedelta

from builds.verdict.facts.verdict import verdict_of
from garage.actions import gear as actions
from garage.models import Gear
from tests.factories import NOW, JobFactory

EARLIER = NOW - timedelta(days=30)
FORM = {
    "kind": "belts",
    "name": "Six-point belts",
    "standard": "sfi-16",
    "label": "SFI 16.1",
    "meaning": "",
    "printed": "March 2024",
    "note": "",
}


def piece(vehicle=None, kind="belts", last=date(2028, 12, 31), **more):
    garage = more.pop("garage", None) or vehicle.garage
    fields = {
        "name": more.pop("name", kind.capitalize()),
        "kind": kind,
        "meaning": "until",
        "printed_on": last,
        "precision": "day" if last else "",
        "made_at": EARLIER,
    }
    return Gear.objects.create(garage=garage, vehicle=vehicle, **{**fields, **more})


def need(cast, vehicle, *kinds):
    actions.need(vehicle, kinds=list(kinds), by=cast.owner, at=NOW)


def gear_reasons(vehicle, entry=None):
    found = verdict_of(vehicle, NOW, entry).reasons
    return [each.sentence for each in found if each.kind.startswith("gear")]


def not_recorded(vehicle):
    found = verdict_of(vehicle, NOW)
    return "gear it must have" in f"{found.sentence} {found.not_recorded}".lower()


def crash(cast, car, at=NOW, **more):
    return JobFactory(vehicle=car, title="Crash check", kinds=["crash"], made_at=at, made_by=cast.owner, **more)
