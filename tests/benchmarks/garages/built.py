"""Garages built through the same actions as real ones, and what somebody in each of them reads and taps."""

import secrets
from dataclasses import dataclass
from importlib import import_module
from typing import Any


@dataclass(frozen=True)
class Hand:
    """Who is in: the cookie, what is read by turns, and one job that is begun and put down again."""

    garage: int
    session: str
    pages: tuple[str, ...]
    job: int


def hands(count: int) -> list[Hand]:
    """Of so many garages: those that were built before are used again."""
    from garage.models import Garage

    for number in range(Garage.objects.count(), count):
        _build(number)
        print(f"\rgarage {number + 1} of {count}", end="", flush=True)
    print(flush=True)
    return [_hand(garage) for garage in Garage.objects.order_by("pk")[:count]]


def _build(number: int) -> None:
    from builds.demo.actions.garage import load_demo
    from builds.plan.actions.follow import make_plan
    from garage import clock

    garage = load_demo(at=clock.now())
    garage.name = f"Lock-up {number + 1}"
    garage.save(update_fields=["name"])
    make_plan(garage, at=clock.now())


def _hand(garage: Any) -> Hand:
    from django.conf import settings
    from django.contrib.auth import BACKEND_SESSION_KEY, HASH_SESSION_KEY, SESSION_KEY
    from django.urls import reverse

    from builds.work.facts.work import load_work
    from builds.work.models.states import State
    from garage import clock
    from garage.models import Membership
    from parts.models import Part

    owner = Membership.objects.in_garage(garage).filter(role="owner").select_related("person").first()
    session = import_module(settings.SESSION_ENGINE).SessionStore()
    session[SESSION_KEY], session[HASH_SESSION_KEY] = str(owner.person_id), owner.person.get_session_auth_hash()
    session[BACKEND_SESSION_KEY] = settings.AUTHENTICATION_BACKENDS[0]
    session.create()
    work, car = load_work(garage, clock.now()), garage.vehicles.order_by("pk").first()
    free = [pk for pk in work.order if work.jobs[pk].state == State.OPEN and not work.blocks(pk)]
    job = next(pk for pk in reversed(free) if not work.unsigned.get(pk))
    pages = (
        *(reverse("today"), reverse("plan_page"), reverse("vehicle_page", args=[car.pk])),
        *(reverse("job_page", args=[job]), reverse("part_list"), reverse("vehicle_list"), reverse("event_list")),
        *(reverse("part_page", args=[Part.objects.in_garage(garage).first().pk]), f"{reverse('find_page')}?q=weld"),
        *(reverse("shop_page"), reverse("person_list")),
    )
    return Hand(garage.pk, session.session_key, pages, job)


def csrf() -> str:
    """A secret as the form and its cookie both may carry it."""
    return secrets.token_hex(16)
