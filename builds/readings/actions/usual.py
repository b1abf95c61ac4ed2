"""The usual readings of a car and the limits that are offered for them, taken in one act."""

from collections import defaultdict
from datetime import datetime

from django.db import transaction

from builds.readings.actions.readings import TargetInput, accept_limits, choose_required
from builds.readings.engine.figures import number_of
from builds.readings.engine.required import SENSIBLE
from builds.readings.engine.wanted_limits import WantedLimit, wanted_limits
from builds.readings.facts.readings import readings_of
from garage.models import Membership, Vehicle


@transaction.atomic
def take_usual(vehicle: Vehicle, *, by: Membership, at: datetime) -> None:
    """Those without a figure of their own stay to be written by the garage."""
    choose_required(vehicle, SENSIBLE, by=by, at=at)
    lines = readings_of(vehicle.garage, [vehicle], at)[vehicle.pk].required_lines
    aims: dict[str, dict[str, TargetInput]] = defaultdict(dict)
    wanted = [want for want in wanted_limits(lines) if want.offer.amount is not None]
    for want in wanted:
        limit = _limit(want, vehicle.garage.units)
        aims[want.kind.key] |= {field.slug: limit for field in want.fields}
    accept_limits(vehicle, {want.kind.key: want.kind for want in wanted}, aims)


def _limit(want: WantedLimit, system: str) -> TargetInput:
    """As its form has it, when it is ticked and left as it is drawn."""
    offer, field = want.offer, want.fields[0]
    first, second = (
        "" if amount is None else number_of(field, amount, system) for amount in (offer.amount, offer.second)
    )
    assert offer.amount is not None
    return TargetInput(offer.sort, offer.amount, offer.second, first, second, field.unit(system), offer.mark)
