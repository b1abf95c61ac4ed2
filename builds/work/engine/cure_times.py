"""When waits are over: plain ones by the clock, cures by how warm the shop was and will be."""

from dataclasses import replace
from datetime import datetime, timedelta
from typing import Protocol

from builds.cure.engine import (
    PAINT_LIMITS,
    CoatingLimits,
    Product,
    Stage,
    allowed_windows,
    progress,
    ready_at,
    ready_table,
)
from builds.cure.engine.degrees import celsius
from builds.cure.engine.plan_clock import SLOT_MINUTES
from builds.cure.engine.shop_air import Shop
from builds.work.engine.blocks import NOT_IN_SIGHT, Block, NotOver, StillRuns
from builds.work.engine.state_words import OVER
from builds.work.engine.working_order import Wait

Cure = tuple[Product, Stage]
Windows = tuple[tuple[int, int], ...]


class JobBefore(Protocol):
    """A job that others wait for: its state (slug), and when it was finished, if it was."""

    title: str
    state: str
    finished_at: datetime | None


class AskingJob(Protocol):
    """What a job asks of metal and air: at least so warm, in thousandths of a °C; clear of the dew point."""

    needs_mc: int | None
    needs_dry: bool


class CureTimes:
    """The products of a shop in its weather; computed once for each question."""

    def __init__(self, shop: Shop) -> None:
        self.shop = shop
        self._moments: dict[tuple[str, Stage, datetime], datetime] = {}
        self._tables: dict[tuple[str, Stage, int], tuple[int, ...]] = {}
        self._windows: dict[tuple[CoatingLimits, int], Windows] = {}

    def cure_of(self, wait: Wait) -> Cure | None:
        """What is computed; None for a plain wait, and for a product that has no such time."""
        if not wait.stage:
            return None
        product = self.shop.entered.products.get(wait.cure)
        if product is None or product.maker_time_only or not product.has(wait.stage):
            return None
        return product, Stage(wait.stage)

    def ready_at(self, wait: Wait, before: JobBefore) -> datetime | None:
        """When the wait behind finished work is over; None when there is none."""
        if before.finished_at is None:
            return None
        if cure := self.cure_of(wait):
            return self.reached(*cure, before.finished_at)
        return before.finished_at + timedelta(minutes=wait.wait) if wait.wait else None

    def reached(self, product: Product, stage: Stage, since: datetime) -> datetime:
        """When a product that was applied at a moment reaches a stage."""
        key = (product.slug, stage, since)
        if key not in self._moments:
            minute = ready_at(product, stage, self.shop.minute(since), self.shop.course)
            self._moments[key] = NOT_IN_SIGHT if minute is None else self.shop.moment(minute)
        return self._moments[key]

    def block(self, wait: Wait, before: JobBefore) -> Block | None:
        """What this wait still keeps its later job from."""
        if before.state not in OVER:
            return NotOver(before.title, before.state, looked_for=before.finished_at is not None)
        ready, at = self.ready_at(wait, before), self.shop.at
        return StillRuns(before.title, wait.why, ready, at, self.shop.zone) if ready and ready > at else None

    def come(self, wait: Wait, before: JobBefore) -> float:
        """How much of the wait is behind it now, 0 to 1."""
        since, ready = before.finished_at, self.ready_at(wait, before)
        if since is None or ready is None or self.shop.at >= ready:
            return 1.0
        if cure := self.cure_of(wait):
            now = self.shop.minute(self.shop.at)
            return min(1.0, progress(*cure, self.shop.minute(since), now, self.shop.course))
        return (self.shop.at - since) / (ready - since)

    def table(self, wait: Wait, slots: int) -> tuple[int, ...] | None:
        """The planner's table of ready slots; one for all links of a product and stage."""
        cure = self.cure_of(wait)
        if cure is None:
            return None
        key = (cure[0].slug, cure[1], slots)
        if key not in self._tables:
            self._tables[key] = tuple(ready_table(*cure, self.shop.course, slot_minutes=SLOT_MINUTES, slots=slots))
        return self._tables[key]

    def windows(self, job: AskingJob, slots: int) -> Windows | None:
        """The slots in which the weather lets the job be worked; None where it asks for nothing."""
        limits = limits_of(job)
        if limits is None:
            return None
        if (limits, slots) not in self._windows:
            self._windows[limits, slots] = tuple(
                allowed_windows(
                    limits,
                    self.shop.course,
                    self.shop.dew if job.needs_dry else None,
                    slot_minutes=SLOT_MINUTES,
                    slots=slots,
                )
            )
        return self._windows[limits, slots]


def limits_of(job: AskingJob) -> CoatingLimits | None:
    """What the job asks of metal and air."""
    if job.needs_mc is None and not job.needs_dry:
        return None
    least = None if job.needs_mc is None else celsius(job.needs_mc)
    return replace(PAINT_LIMITS, minimum=least) if job.needs_dry else CoatingLimits(least)
