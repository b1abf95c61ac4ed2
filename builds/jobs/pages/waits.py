"""What a job waits for besides other jobs: cures, parts, the weather, a maker's time."""

from dataclasses import dataclass, replace

from builds.jobs.facts import JobRows
from builds.needs.facts.wants import Wants, wants_of
from builds.needs.pages.alike import alike_on_shelf
from builds.needs.pages.eats import Suggestion, suggested
from builds.needs.pages.needs import NeedLine, need_lines
from builds.plan.facts.last_days import last_days
from builds.shop.pages.cures import CureClock, running_cures
from builds.shop.pages.product_page import maker_warnings
from builds.work.models.states import OPEN_STATES
from builds.work.pages.weather import Weather, weather_of


@dataclass(frozen=True)
class JobWaits:
    """`eats` is what its recipe says it eats and nobody has asked for; `warnings` are about times that only a maker
    gives.
    """

    clocks: tuple[CureClock, ...]
    needs: tuple[NeedLine, ...]
    eats: tuple[Suggestion, ...]
    weather: Weather | None
    warnings: tuple[str, ...]

    @property
    def to_pull(self) -> bool:
        """Some of it lies on the shelf, promised to this job."""
        return any(need.places for need in self.needs)


def job_waits(rows: JobRows) -> JobWaits:
    """Three queries for an open job, one more where it wants a part and two where in words alone, two where its
    recipe eats something, and the shop's where it counts.
    """
    job, work, times = rows.job, rows.work, rows.work.times
    wants = wants_of(work) if rows.is_open else Wants((), {}, {})
    by_the_maker = dict.fromkeys(link.cure for link in rows.links if link.cure and not link.cure_stage)
    known = times.shop.entered.products if by_the_maker else {}
    products = [known[slug] for slug in by_the_maker if slug in known]
    lines = need_lines(
        rows.needs,
        times.shop.today,
        wants.standing,
        work.garage.currency,
        last_days(work.garage).days if rows.needs else {},
    )
    sought = [need for need in rows.needs if need.part is None and need.got_at is None] if rows.is_open else []
    alike = alike_on_shelf(sought, work.garage)
    return JobWaits(
        tuple(clock for clock in running_cures(work) if job in (clock.job, clock.follower)),
        tuple(replace(line, alike=alike.get(line.pk, "")) for line in lines),
        tuple(suggested(job, rows.needs)) if rows.is_open and not job.looked_for else (),
        weather_of(job, times, work.garage.units) if job.state in OPEN_STATES else None,
        tuple(words for product in products for words in maker_warnings(product, times)),
    )
