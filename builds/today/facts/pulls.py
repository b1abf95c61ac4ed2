"""What is to be pulled from the shelf for some jobs, and what no shelf has for them."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime

from builds.needs.facts.wants import WantStanding, wants_of
from builds.plan.facts.last_days import last_days
from builds.today.facts.asked import Asked
from builds.today.facts.evening import turns_of
from builds.work.facts.work import load_work
from builds.work.models.need import Need
from garage.models import Garage, Vehicle
from parts.models import Place


@dataclass(frozen=True)
class Pull:
    """So much of what a need asks for, from one place."""

    need: Need
    place: Place
    quantity: int


@dataclass(frozen=True)
class Pulls:
    """`missing` are needs of the same jobs that no shelf has whole; `cars` have the jobs.

    `last_days` says by job (pk) until when its parts may come.
    """

    today: date
    pulls: tuple[Pull, ...]
    missing: tuple[tuple[Need, WantStanding], ...]
    cars: tuple[Vehicle, ...]
    last_days: Mapping[int, date]


def pulls_for(garage: Garage, at: datetime, asked: Asked) -> Pulls:
    """As many queries for one want as for fifty."""
    work = load_work(garage, at)
    chosen = {turn.job for turn in turns_of(garage, work, asked)}
    wants = wants_of(work)
    needs = [(need, wants.standing[need.pk]) for need in wants.needs if need.job_id in chosen]
    cars = {work.jobs[pk].vehicle_id: work.jobs[pk].vehicle for pk in chosen}
    return Pulls(
        work.times.shop.today,
        tuple(Pull(need, wants.places[pick.place], pick.quantity) for need, stands in needs for pick in stands.picks),
        tuple((need, stands) for need, stands in needs if stands.state != "shelf"),
        tuple(cars[pk] for pk in sorted(cars)),
        last_days(garage).days,
    )
