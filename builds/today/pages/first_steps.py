"""What an empty garage lacks: a car, an event, hours, then a recipe."""

from dataclasses import dataclass

from django.urls import reverse

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
    recipes = reverse("recipe_list") + (f"?car={car.pk}" if car else "")
    return (
        FirstStep("Add a car", "with the colour of its tape", reverse("vehicle_add"), bool(car)),
        FirstStep("Add an event", "and enter the car for it", reverse("event_add"), bool(entries)),
        FirstStep(
            "Say when you are in",
            "the week, evening by evening",
            reverse("hours_edit", args=[me.pk]),
            hours,
        ),
        FirstStep("Put a recipe on the car", "or write a job down", recipes, False),
    )
