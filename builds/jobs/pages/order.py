"""The order of work round a job: what it waits for, what waits for it, stations that its car keeps."""

from dataclasses import dataclass

from django.urls import reverse

from builds.cure.engine import Stage
from builds.steps.pages.job_cards import STRIPES
from builds.work.engine.blocks import ready_words
from builds.work.engine.open_work import Work
from builds.work.facts.waits import wait_of
from builds.work.models.job import Job
from builds.work.models.link import Link, StationHold
from builds.work.models.states import FINISHED_STATES, State
from garage.clock import clock_words, zone
from garage.engine.words import duration_words


@dataclass(frozen=True)
class Neighbour:
    """The other end of a link, and the wait or the cure between; `vehicle` if it is another."""

    link: int
    url: str
    title: str
    vehicle: str
    stripe: str
    word: str
    wait: str
    cure: str
    why: str
    ready: str
    by_order: bool = False
    cut: str = ""
    cut_by: str = ""


@dataclass(frozen=True)
class KeptStation:
    """A station that the car keeps from one job until another; `freed` says who let it go, and why."""

    pk: int
    station: str
    first: str
    first_url: str
    last: str
    last_url: str
    stripped: bool
    freed: str


def order_words(first: int, after: int) -> str:
    """`waits for 2 jobs, and nothing waits for it`, by how many come first and how many after."""
    waits = f"waits for {first} job{'s' * (first > 1)}" if first else "waits for nothing"
    wait = {0: "nothing waits for it", 1: "1 job waits for it"}.get(after, f"{after} jobs wait for it")
    return f"{waits}, and {wait}"


def neighbour(link: Link, other: Job, work: Work) -> Neighbour:
    finished = link.before.state in FINISHED_STATES
    ready = work.times.ready_at(wait_of(link), link.before) if finished else None
    cure = _cure_words(link, work)
    typed = link.wait_minutes and not (cure and link.cure_stage)
    return Neighbour(
        link=link.pk,
        url=reverse("job_page", args=[other.pk]),
        title=other.title,
        vehicle=other.vehicle.name if link.before.vehicle_id != link.after.vehicle_id else "",
        stripe=STRIPES[State(other.state)],
        word=other.get_state_display(),
        wait=duration_words(link.wait_minutes) if typed else "",
        cure=cure,
        why=link.why,
        by_order=link.by_order,
        cut=link.cut_because,
        cut_by=f"{link.cut_by}, {clock_words(link.cut_at, work.at)}" if link.cut_at else "",
        ready=ready_words(ready, work.at, zone()) if ready and ready > work.at else "",
    )


def _cure_words(link: Link, work: Work) -> str:
    """`until Epoxy primer is ready for the next coat`; empty for a plain wait."""
    product = work.times.shop.entered.products.get(link.cure) if link.cure else None
    if product is None:
        return ""
    if not link.cure_stage:
        return f"{product.name}: the maker's time" if product.maker_time_only else ""
    return f"until {product.name} is {Stage(link.cure_stage).words}"


def kept_station(hold: StationHold) -> KeptStation:
    return KeptStation(
        hold.pk,
        str(hold.station),
        hold.first.title,
        reverse("job_page", args=[hold.first_id]),
        hold.last.title,
        reverse("job_page", args=[hold.last_id]),
        hold.begun and hold.last.state not in FINISHED_STATES,
        f"Freed by {hold.freed_by}: {hold.freed_because}" if hold.freed_by else "",
    )
