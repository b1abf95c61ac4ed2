"""Founding a garage, changing it, and leaving the demo."""

from datetime import datetime

from django.db import transaction

from garage.actions.refused import Refused
from garage.models import Garage, Membership, Person, Skill, Station

SKILLS = {
    "fit": "Fitting",
    "weld": "Welding",
    "paint": "Paint",
    "wire": "Wiring",
    "align": "Alignment",
    "brakes": "Brakes",
}
STATIONS = {
    "bay": "Bay",
    "driveway": "Driveway",
    "welder": "Welding bench",
    "paint": "Paint corner",
    "floor": "Level floor",
}
# Those that a car stands in; the others are benches and corners for its parts.
STANDS = frozenset({"bay", "driveway", "floor"})


def furnish(garage: Garage) -> None:
    """The skills and stations that the recipes name."""
    Skill.objects.bulk_create(Skill(garage=garage, slug=slug, name=name) for slug, name in SKILLS.items())
    Station.objects.bulk_create(
        Station(garage=garage, slug=slug, name=name, stands=slug in STANDS) for slug, name in STATIONS.items()
    )


@transaction.atomic
def found(owner: Person, *, name: str, called: str = "", **more: str) -> Garage:
    """A garage of one's own, furnished, its owner `called` that from now on. `more` of it as its own form has it.

    Refused to whoever is or was in one that is no demo.
    """
    Person.objects.select_for_update().get(pk=owner.pk)
    if Membership.objects.of(owner).real().exists():
        raise Refused("You are in a garage already.")
    garage = Garage.objects.create(name=name, **more)
    if called:
        Person.objects.filter(pk=owner.pk).update(name=called)
    furnish(garage)
    member = Membership.objects.create(garage=garage, person=owner, role="owner", may_sign=True)
    # Whoever is alone does everything; what he cannot do he unticks.
    member.skills.set(Skill.objects.in_garage(garage))
    return garage


def leave_invented(member: Membership, *, at: datetime) -> None:
    """Out of the demo; whoever has a garage of his own is in that again. Raises Refused in a real one."""
    if not member.garage.invented:
        raise Refused(f"{member.garage} is no demo: whoever owns it can take you out of it.")
    member.left_at = at
    member.save(update_fields=["left_at"])


def let_log_count(garage: Garage, counts: bool) -> None:
    """Whether the odds take what finished jobs really took into account."""
    garage.log_counts = counts
    garage.save(update_fields=["log_counts"])


def let_used_cost(garage: Garage, counts: bool) -> None:
    """Whether used parts count at what they were bought for, or at nothing."""
    garage.used_cost_counts = counts
    garage.save(update_fields=["used_cost_counts"])
