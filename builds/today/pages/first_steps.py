"""What an empty garage lacks: a car, an event, hours, then jobs."""

from dataclasses import dataclass

from django.urls import reverse

from builds.jobs.pages.pasted import first_list
from garage.models import Entry, Membership, Vehicle


@dataclass(frozen=True)
class FirstStep:
    """One thing that an empty garage still lacks."""

    label: str
    why: str
    url: str
    done: bool


def first_steps(me: Membership, members: list[Membership], entries: list[Entry]) -> tuple[FirstStep, ...]:
    """In the order in which they are best taken; one query."""
    car = Vehicle.objects.in_garage(me.garage).kept().first()
    hours = any(member.weekly_hours.all() for member in members)
    jobs = first_list(car) if car else reverse("recipe_list")
    return (
        FirstStep("Add a car", "with the colour of its tape", reverse("vehicle_add"), bool(car)),
        FirstStep("Add an event", "and enter the car for it", reverse("event_add"), bool(entries)),
        FirstStep(
            "Say when you are in",
            "the week, evening by evening",
            reverse("hours_edit", args=[me.pk]),
            hours,
        ),
        FirstStep("Write its jobs down", "a list to paste, or recipes to put on it", jobs, False),
    )
