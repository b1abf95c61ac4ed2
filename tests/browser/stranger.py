"""A garage as somebody has it after an evening: one car, four recipes, a list by hand, nothing measured, no limits."""

from datetime import datetime, timedelta

from builds.readings.actions.readings import choose_required
from builds.readings.engine.required import SENSIBLE
from builds.recipes.actions.putting import put_several
from builds.recipes.engine.parse import load_shipped
from builds.work.models.job import Job
from garage.actions import garages
from garage.models import Garage, Membership, Skill, Vehicle
from tests.builds.plan.plan_kit import enter, evenings
from tests.factories import GarageFactory, JobFactory, MembershipFactory, VehicleFactory

ON_THE_CAR = ("brake-overhaul", "four-wheel-alignment", "pre-event-spanner-check", "steering-arm-rework")


def strangers_garage(at: datetime, *, name: str = "Own lock-up") -> Garage:
    garage = GarageFactory(name=name)
    garages.furnish(garage)
    for who, role in (("Rowan", "owner"), ("Tom", "helper"), ("Priya", "helper")):
        member = MembershipFactory(garage=garage, role=role, person__name=who)
        member.skills.set(Skill.objects.in_garage(garage))
        evenings(member)
    car = VehicleFactory(garage=garage, name="Merlin")
    enter(car, at + timedelta(days=20))
    _work(car, garage.memberships.get(role="owner"), at)
    return garage


def _work(car: Vehicle, owner: Membership, at: datetime) -> None:
    choose_required(car, SENSIBLE, by=owner, at=at)
    put_several([recipe for recipe in load_shipped() if recipe.key in ON_THE_CAR], car, by=owner, at=at)
    for title, rank, systems in (
        ("Bleed the brakes", Job.Rank.SAFETY, ["brakes"]),
        ("Mend the door card", Job.Rank.NEEDED, []),
    ):
        JobFactory(vehicle=car, made_by=owner, made_at=at, title=title, rank=rank, systems=systems, kinds=[])
