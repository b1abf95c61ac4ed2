"""What the weeks bring besides work: recipes, a late part, an absence, a cold week, events and their ends."""

import os
import uuid
from collections.abc import Callable, Iterator
from datetime import datetime, timedelta
from functools import partial

import pytest
from django.urls import reverse

from builds.needs.actions import needs
from builds.recipes.actions.wanted import DAYS_TO_COME
from builds.scrutineering.actions import check_lists, checks, entries, runs
from builds.scrutineering.pages.check_list import entry_checks, rows_to_tick
from builds.shop.actions import shop
from builds.verdict.facts.verdict import verdict_of
from builds.work.models.job import Job
from builds.work.models.need import Need
from garage.actions import hours
from garage.models import Entry
from tests.conftest import signed_in
from tests.season.looks import ALL, ROWS
from tests.season.made_garage import DAY, EARLY, EVENTS, FEW, HOUR, MIDNIGHT, PUT_ON, enter, put_on, work_by_hand
from tests.season.people import Season

Happening = tuple[datetime, Callable[[], None]]
COLD = (-3_000, 5_000)
WEEKS = float(os.environ.get("SEASON", "0"))
asked_for = pytest.mark.skipif(not WEEKS, reason="takes minutes: `make season` runs it, and nothing else does")


def live(season: Season, weeks: float, busy: bool = False, morning: Callable[[], None] = lambda: None) -> None:
    """From Tuesday at five; `busy` has all recipes and events, `morning` is done each day before anybody is in."""
    end = season.at + timedelta(weeks=weeks)
    days = [(MIDNIGHT + day * DAY + 7 * HOUR, partial(_begin_day, season, day, morning)) for day in range(1, 50)]
    for moment, happens in sorted([*_happenings(season, busy), *days], key=lambda happening: happening[0]):
        if moment > end:
            break
        season.live_until(moment)
        season.clock.at = max(season.at, moment)
        season.follow()
        season.check(ROWS)  # nobody wrote anything: what moved since, moved because time went by
        happens()
    season.live_until(end)


def _begin_day(season: Season, day: int, morning: Callable[[], None]) -> None:
    morning()
    season.check(ALL)
    _open_pages(season, day)


def _open_pages(season: Season, day: int) -> None:
    """As they are drawn, for the owner; every fourth day, because drawing takes long."""
    if day % 4 != 1:
        return
    owner = signed_in(season.made.owner)
    for page in ("today", "plan_page"):
        assert owner.get(reverse(page)).status_code == 200, page


def _happenings(season: Season, busy: bool) -> Iterator[Happening]:
    made = season.made
    for days, name, cars in (EARLY, *EVENTS) if busy else (EARLY,):
        yield from _event(season, days, name, cars)
    for day, car, keys in PUT_ON if busy else FEW:
        at = MIDNIGHT + day * DAY + 17 * HOUR + timedelta(minutes=30)
        yield at, lambda car=car, keys=keys: season.act("recipe", lambda: put_on(made, car, keys, at=season.at), car)
        yield from _parts(season, at)
    yield MIDNIGHT + 17.6 * HOUR, lambda: season.act("job", lambda: work_by_hand(made, "Moth", at=season.at), "Moth")
    yield from _late_part(season)
    tove, away = made.people["Tove"], (MIDNIGHT + 8 * DAY).date()
    for day in (away, away + DAY):
        yield (
            MIDNIGHT + 7 * DAY + 19 * HOUR,
            lambda day=day: season.act("absence", lambda: hours.set_day(tove, day=day, kind="off", stretches=[])),
        )
    cold = {(MIDNIGHT + day * DAY).date(): COLD for day in range(3, 10)}
    yield MIDNIGHT + 2 * DAY + 8 * HOUR, lambda: season.act("weather", lambda: shop.set_days(made.garage, cold))


def _parts(season: Season, put_on_at: datetime) -> Iterator[Happening]:
    """What recipes asked for is ordered at once, each by its form, and is there by noon of the day that it was said."""
    open_needs = Need.objects.in_garage(season.made.garage).open()

    def order() -> None:
        for need in open_needs.filter(expected_on=None).select_related("job__vehicle"):
            day = season.at.date() + timedelta(days=need.lead_days)
            order_it = partial(needs.change, need, by=season.made.owner, expected_on=day)
            season.act("ordered", order_it, need.job.vehicle.name)

    def there() -> None:
        for need in open_needs.filter(expected_on=season.at.date()).exclude(lead_days=None):
            season.act("part", partial(needs.got, need, by=season.made.owner, at=season.at), need.job.vehicle.name)

    yield put_on_at + timedelta(minutes=5), order
    yield put_on_at.replace(hour=12, minute=0) + DAYS_TO_COME * DAY, there


def _late_part(season: Season) -> Iterator[Happening]:
    """Asked for at once, said to come on Thursday, then on Monday, there on Monday."""
    car = season.made.cars["Moth"]
    first, second = (MIDNIGHT + 2 * DAY).date(), (MIDNIGHT + 6 * DAY).date()

    def ask() -> None:
        job = Job.objects.on(car).open().order_by("pk").last()
        season.act("part", lambda: needs.add(job, at=season.at, what="radiator hose", expected_on=first), "Moth")

    def later() -> None:
        need = Need.objects.get(job__vehicle=car, what="radiator hose")
        season.act("part", lambda: needs.change(need, by=season.made.owner, expected_on=second), "Moth")

    def there() -> None:
        need = Need.objects.get(job__vehicle=car, what="radiator hose")
        season.act("part", lambda: needs.got(need, by=season.made.owner, at=season.at), "Moth")

    yield MIDNIGHT + 17.75 * HOUR, ask
    yield MIDNIGHT + 2 * DAY + 12 * HOUR, later
    yield MIDNIGHT + 6 * DAY + 12 * HOUR, there


def _event(season: Season, days: int, name: str, cars: tuple[str, ...]) -> Iterator[Happening]:
    made, day = season.made, MIDNIGHT + days * DAY
    came: list[Entry] = []
    entered: list[Entry] = []
    written = max(MIDNIGHT + 17.2 * HOUR, day - 14 * DAY)
    yield written, lambda: season.act("entry", lambda: entered.extend(enter(made, days, name, cars)))
    yield day - 3 * HOUR, lambda: [_last_look(season, entry) for entry in entered]
    yield day + 8 * HOUR, lambda: [_leave(season, entry, came) for entry in entered]
    yield day + 10 * HOUR, lambda: [_first_session(season, entry) for entry in came]
    yield day + 18 * HOUR, lambda: _strip_down(season, came)


def _last_look(season: Season, entry: Entry) -> None:
    """On the evening before: the list is made and ticked."""
    season.act("list", lambda: check_lists.make(entry, by=season.made.owner, at=season.at), entry.vehicle.name)
    _tick(season, entry)


def _tick(season: Season, entry: Entry) -> None:
    """Section by section on one page, sent in one form."""
    items = [row.item for row in rows_to_tick(entry_checks(entry, season.at))]
    tick = partial(checks.tick_many, items, by=season.made.owner, at=season.at, key=uuid.uuid4())
    season.act("ticks", tick, entry.vehicle.name, things=len(items))


def _leave(season: Season, entry: Entry, came: list[Entry]) -> None:
    """A car that is not fit stays at home."""
    if verdict_of(entry.vehicle, season.at, entry).state == "fit":
        season.figures["went"] += 1
        came.append(entry)
    else:
        season.figures["stayed at home"] += 1
        season.acts.begin(entry.vehicle.name, str(entry.event))
        season.act("withdrawn", lambda: entries.take_out(entry, at=season.at), entry.vehicle.name)


def _first_session(season: Season, entry: Entry) -> None:
    by, car = season.made.owner, entry.vehicle.name
    season.act("first session", lambda: runs.first_session(entry, by=by, at=season.at), car)
    _tick(season, entry)


def _strip_down(season: Season, came: list[Entry]) -> None:
    for entry in came:
        season.acts.begin(entry.vehicle.name, str(entry.event))
    if came:
        event = came[0].event
        season.act("strip-down", lambda: runs.strip_down(event, came, by=season.made.owner, at=season.at))
