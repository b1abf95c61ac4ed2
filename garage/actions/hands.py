"""Whose hands may be on a car: asked by every action that works on one."""

from garage.access import refuse_pull_from, refuse_work_on
from garage.actions.refused import Refused
from garage.models import Membership, Vehicle


def work_or_refuse(member: Membership, vehicle: Vehicle, field: str = "") -> None:
    if refused := refuse_work_on(member, vehicle):
        raise Refused(refused, field)


def pull_or_refuse(member: Membership, donor: Vehicle) -> None:
    if refused := refuse_pull_from(member, donor):
        raise Refused(refused)
