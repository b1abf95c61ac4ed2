"""Taps as a thumb makes them: what is sent, and the main part of the page that answers; nothing of it is kept."""

from collections.abc import Iterator

from django.db import transaction
from django.test import Client
from django.urls import reverse

from builds.plan.actions.follow import follow
from builds.scrutineering.models.check import CheckItem
from builds.work.facts.work import load_work
from builds.work.models.states import State
from garage.models import Entry, Garage
from parts.models import Balance
from tests.benchmarks.pages.base import Made
from tests.benchmarks.pages.measure import Measured, measured
from tests.benchmarks.pages.pages import made_part
from tests.typed import FRONT_TOE

Tap = tuple[str, str, dict[str, str]]
HTMX = {"HX-Request": "true", "HX-Target": "main"}


def taps(made: Made) -> Iterator[Tap]:
    """Name, path and what is sent."""
    work = load_work(made.garage, made.at)
    free = [pk for pk in work.order if work.jobs[pk].state == State.OPEN and not work.blocks(pk)]
    plain = next(pk for pk in reversed(free) if not work.jobs[pk].kinds_likely and not work.unsigned.get(pk))
    yield "start a job", reverse("job_start", args=[plain]), {}
    yield "finish a job", reverse("job_finish", args=[plain]), {}
    entry = Entry.objects.in_garage(made.garage).upcoming(made.at).first()
    item = CheckItem.objects.filter(checklist__entry=entry, state="open").first()
    yield "tick an item", reverse("check_tick", args=[item.pk]), {}
    part = made_part(made)
    held = Balance.objects.filter(part=part, place__kind="bin", quantity__gt=0).select_related("place").first()
    to = made.garage.places.filter(kind="bin").exclude(pk=held.place_id).first()
    sent = {"quantity": "1", "source": str(held.place_id), "target": str(to.pk)}
    yield "move a part", reverse("part_move", args=[part.pk, "put"]), sent
    yield "write a reading", reverse("reading_add", args=[entry.vehicle_id, "toe_front"]), FRONT_TOE


def press(client: Client, made: Made, tap: Tap) -> tuple[Measured, Measured]:
    """The write, and the page that answers it once the plan has followed, which is done beside it."""
    _, path, sent = tap
    with transaction.atomic():
        wrote = measured(client, path, {**sent}, headers=HTMX)
        follow(Garage.objects.get(pk=made.garage.pk), at=made.at)
        answered = measured(client, wrote.location, headers=HTMX)
        transaction.set_rollback(True)
    return wrote, answered
