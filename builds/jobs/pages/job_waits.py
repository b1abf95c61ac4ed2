"""What a job waits for besides other jobs: cures, parts, the weather, a maker's time."""

from collections.abc import Iterable
from dataclasses import dataclass

from builds.cure.engine import Stage
from builds.needs.facts.wants import wants_of
from builds.needs.pages.needs import NeedLine, need_lines
from builds.shop.pages.cures import CureClock, running_cures
from builds.shop.pages.product_page import maker_warnings
from builds.work.facts.work import Work
from builds.work.models.job import Job
from builds.work.models.link import Link
from builds.work.models.need import Need
from builds.work.models.states import OPEN_STATES
from builds.work.pages.weather import Weather, weather_of


@dataclass(frozen=True)
class JobWaits:
    """`warnings` are about times that only a maker gives."""

    clocks: tuple[CureClock, ...]
    needs: tuple[NeedLine, ...]
    weather: Weather | None
    warnings: tuple[str, ...]

    @property
    def to_pull(self) -> bool:
        """Some of it lies on the shelf, promised to this job."""
        return any(need.places for need in self.needs)


def job_waits(job: Job, work: Work, links: Iterable[Link]) -> JobWaits:
    """Four queries more than the work, and the shop's where it counts."""
    times = work.times
    standing = wants_of(work).standing if job.pk in work.jobs else {}
    clocks = [clock for clock in running_cures(work) if job in (clock.job, clock.follower)]
    makers = {
        slug: times.products[slug]
        for slug in (link.cure for link in links if link.cure and not link.cure_stage)
        if slug in times.products
    }
    return JobWaits(
        tuple(clocks),
        tuple(
            need_lines(
                Need.objects.in_garage(times.garage).of(job).with_ends(),
                times.shop.today,
                standing,
                times.garage.currency,
            )
        ),
        weather_of(job, times) if job.state in OPEN_STATES else None,
        tuple(words for product in makers.values() for words in maker_warnings(product, times)),
    )


def cure_words(link: Link, work: Work) -> str:
    """`until Epoxy primer is ready for the next coat`; empty for a plain wait."""
    product = work.times.products.get(link.cure) if link.cure else None
    if product is None:
        return ""
    if not link.cure_stage:
        return f"{product.name}: the maker's time" if product.maker_time_only else ""
    return f"until {product.name} is {Stage(link.cure_stage).words}"
