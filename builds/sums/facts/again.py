"""A sum kept on a car, worked out again from what was read since: how far is it still to what was wanted."""

from dataclasses import dataclass
from datetime import datetime

from builds.bench.frame.read import texts_of, typed_as, work_out
from builds.bench.frame.sums import Sum, Worked
from builds.readings.models.reading import Reading
from builds.sums.facts.car import car_figures, kinds_asked
from builds.sums.facts.kept import KeptStanding
from garage.models import Vehicle


@dataclass(frozen=True)
class WorkedAgain:
    """`read_at` is when the newest of the readings that it rests on was taken; without an answer `why` says why not."""

    worked: Worked | None
    read_at: datetime
    why: str = ""


def worked_again(one: KeptStanding, vehicle: Vehicle, at: datetime) -> WorkedAgain | None:
    """With what was wanted and chosen when it was kept, and what is known of the car now.

    None where nothing was read since, where a reading that it rests on does not stand, or a dimension was changed; and
    where the work that it plans was begun, unless it has a target: what was read since may have that work in it.
    """
    if not _rests_on_readings(one.asked) or (one.planned and not one.asked.offered.target):
        return None
    if not _read_since(one, vehicle):
        return None
    read = [ask.slug for ask in one.asked.asks if ask.reading]
    known = car_figures(vehicle, one.asked, texts_of(one.asked, one.kept.typed), at)
    taken = [figure.at for figure in known.values() if figure.reading and figure.at]
    newest = max(taken, default=one.kept.at)
    if newest <= one.kept.at or not known.keys() >= set(read) or any(figure.changed for figure in known.values()):
        return None
    units = one.kept.units
    now = {
        ask.slug: typed_as(ask, known[ask.slug].typed, known[ask.slug].units, units)
        for ask in one.asked.asks
        if ask.slug in known
    }
    worked, errors = work_out(one.asked, one.kept.typed | now, units)
    return WorkedAgain(worked, newest, next(iter(errors.values()), ""))


def _rests_on_readings(asked: Sum) -> bool:
    """Whether what it goes with is what it was worked out from, and not a dimension alone."""
    return not kinds_asked(asked).isdisjoint(asked.offered.readings)


def _read_since(one: KeptStanding, vehicle: Vehicle) -> bool:
    """Whether anything that it rests on was read since it was kept: mostly nothing was, and this is one query."""
    taken = Reading.objects.on(vehicle).standing().filter(kind__in=kinds_asked(one.asked), at__gt=one.kept.at)
    return taken.exists()
