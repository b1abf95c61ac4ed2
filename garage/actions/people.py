"""People of a garage: added, changed, gone; and the skills they can have."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.db import transaction

from garage.access import refuse_leaving_without_owner
from garage.actions import hours
from garage.actions.refused import Refused
from garage.actions.sign_in import end_sessions
from garage.engine.hours import Stretch
from garage.models import Garage, Membership, Person, Skill, Vehicle
from garage.models.slugs import free_slug

IDENTITY = ("name", "surname", "email")


@dataclass(frozen=True)
class CarLimits:
    """The cars that somebody works on, and those that he pulls parts from: every one, also those to come, or these."""

    every_car: bool = True
    cars: Iterable[Vehicle] = ()
    every_donor: bool = True
    donors: Iterable[Vehicle] = ()


def is_elsewhere(member: Membership) -> bool:
    rows = Membership.objects.active().of(member.person)
    return rows.elsewhere(member.garage).exists()


def _keep_an_owner(member: Membership) -> None:
    """Raise Refused if no other owner is left; the garage's row is the lock of two at once."""
    Garage.objects.select_for_update().get(pk=member.garage_id)
    others = Membership.objects.in_garage(member.garage_id).active().owners()
    refusal = refuse_leaving_without_owner(others.exclude(pk=member.pk).count())
    if member.role == Membership.Role.OWNER and refusal:
        raise Refused(refusal)


def _identify(person: Person, wanted: dict[str, Any]) -> bool:
    changed = [field for field in IDENTITY if getattr(person, field) != wanted[field]]
    for field in changed:
        setattr(person, field, wanted[field])
    return bool(changed)


@transaction.atomic
def add(
    garage: Garage,
    *,
    role: str,
    skills: Iterable[Skill],
    works: bool,
    may_sign: bool = False,
    cars: CarLimits | None = None,
    week: list[Stretch] | None = None,
    **identity: Any,
) -> Membership:
    """A new person, or with the e-mail of one who left, that one again; on every car unless `cars` says less.

    Without a `week` whoever comes back has the hours that he had.
    """
    email = identity["email"]
    left = Membership.objects.in_garage(garage).gone().filter(person__email=email).first()
    if email and left:
        member = left
        _identify(member.person, identity)
        member.person.save()
        member.left_at, member.role, member.works = None, role, works
        member.may_sign = may_sign
        member.save()
    else:
        person = Person.objects.create_user(**identity)
        member = Membership.objects.create(garage=garage, person=person, role=role, works=works, may_sign=may_sign)
    member.skills.set(skills)
    _limit(member, cars or CarLimits())
    if week:
        hours.set_week(member, week=week)
    return member


def _limit(member: Membership, limits: CarLimits) -> None:
    member.every_car, member.every_donor = limits.every_car, limits.every_donor
    member.save(update_fields=["every_car", "every_donor"])
    member.cars.set(() if limits.every_car else limits.cars)
    member.donors.set(() if limits.every_donor else limits.donors)


@transaction.atomic
def change(
    member: Membership,
    *,
    role: str,
    skills: Iterable[Skill],
    works: bool,
    may_sign: bool,
    cars: CarLimits | None = None,
    **identity: Any,
) -> None:
    """`cars` as it is to be from now on; as it was where nothing is said."""
    if role != member.role:
        _keep_an_owner(member)
    if _identify(member.person, identity):
        member.person.save()
    member.role, member.works, member.may_sign = role, works, may_sign
    member.save()
    member.skills.set(skills)
    if cars:
        _limit(member, cars)


@transaction.atomic
def remove(member: Membership, *, at: datetime) -> None:
    """He is out at once, here; what he did stays in the books."""
    _keep_an_owner(member)
    member.left_at = at
    member.save(update_fields=["left_at"])
    if not is_elsewhere(member):
        end_sessions(member.person, at=at)


@transaction.atomic
def add_skill(garage: Garage, *, name: str) -> Skill:
    slug = free_slug(name, Skill.objects.in_garage(garage))
    return Skill.objects.create(garage=garage, slug=slug, name=name)
