"""What a calendar says: evenings with their jobs, cures ready, parts due, events."""

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, time

from django.urls import reverse

from builds.calendar.engine.items import Item
from builds.calendar.facts import CalendarFacts
from builds.needs.pages.needs import what_words
from builds.plan.engine.ids import is_of, pk_of
from builds.shop.pages.cures import running_cures
from builds.work.models.job import Job
from garage.access import refuse_presence
from garage.engine.moments import clock_words, dated_words
from garage.engine.presence import Window, merged
from garage.models import Membership
from garage.public import public

NOTHING = "No work is planned for these hours yet."


@dataclass(frozen=True)
class Stint:
    """A job in an evening: from when, and who (names)."""

    starts: datetime
    job: Job
    people: tuple[str, ...]


def calendar_items(facts: CalendarFacts, reader: Membership, whole: bool) -> list[Item]:
    """In order of time; evenings of `reader` alone unless `whole`, and then cures and parts of his cars alone.

    Whoever only looks is told nothing of when somebody is not at home: no hours, and not when cars leave. He reads
    them where he signs in; an address that opens without that is soon handed on.
    """
    looks = refuse_presence(reader) is not None
    cars = None if whole else reader.only_cars
    items = [*_cures(facts, cars), *_parts(facts, cars), *_events(facts, looks)]
    if not looks:
        items += _evenings(facts, facts.hands if whole else [reader.pk], whole)
    return sorted(items, key=lambda item: (item.starts, item.key))


def days_ahead(facts: CalendarFacts, cars: Collection[int]) -> list[Item]:
    """For people outside: of these cars (pk) alone, without hours of anybody, and not when a car leaves."""
    items = [*_cures(facts, cars), *_parts(facts, cars), *_events(facts, True, cars)]
    return sorted(items, key=lambda item: (item.starts, item.key))


def _evenings(facts: CalendarFacts, who: Collection[int], whole: bool) -> Iterator[Item]:
    hours = merged(window for pk in who for window in facts.windows.get(pk, []))
    for starts, ends in ((starts, ends) for starts, ends in hours if ends > facts.today):
        stints = list(stints_in(facts, {*who}, (starts, ends)))
        cars = list(dict.fromkeys(stint.job.vehicle.name for stint in stints))
        there = [facts.hands[pk].name for pk in who if whole and _meets(facts.windows.get(pk, []), starts, ends)]
        lead = f"{', '.join(there)} in the garage" if there else "In the garage"
        lines = [_stint_words(stint, starts, facts, whole) for stint in stints]
        yield Item(
            key=f"evening {starts.astimezone(UTC):%Y-%m-%d %H:%M}",
            starts=starts,
            ends=ends,
            summary=f"{lead}: {', '.join(cars)}" if cars else lead,
            description="\n".join(lines) or (NOTHING if ends > facts.at else ""),
            url=_address("today"),
            day=starts.astimezone(facts.zone).date(),
            jobs=tuple(dict.fromkeys(stint.job.pk for stint in stints)),
        )


def _meets(windows: list[Window], starts: datetime, ends: datetime) -> bool:
    return any(begin < ends and starts < end for begin, end in windows)


def stints_in(facts: CalendarFacts, who: set[int], hours: Window) -> Iterator[Stint]:
    """The jobs that the plan has for these people in these hours, in its order."""
    for session in facts.sessions:
        people = {pk_of(name) for name in session.people if is_of("person", name)}
        starts, ends = facts.plan.clock.moment(session.start), facts.plan.clock.moment(session.end)
        job = facts.work.jobs.get(pk_of(session.job))
        if job and people & who and starts < hours[1] and hours[0] < ends:
            yield Stint(starts, job, tuple(facts.hands[pk].name for pk in sorted(people) if pk in facts.hands))


def _stint_words(stint: Stint, evening: datetime, facts: CalendarFacts, whole: bool) -> str:
    when = clock_words(max(stint.starts, evening), evening, facts.zone)
    people = f" ({', '.join(stint.people)})" if whole and stint.people else ""
    return f"{when} “{stint.job.title}”, {stint.job.vehicle.name}{people}"


def _cures(facts: CalendarFacts, cars: Collection[int] | None = None) -> Iterator[Item]:
    for clock in running_cures(facts.work):
        if cars is not None and clock.job.vehicle_id not in cars:
            continue
        if clock.ready_at and clock.ready_at > facts.at:
            what = f"{clock.product} on “{clock.job.title}”" if clock.product else f"“{clock.job.title}”"
            yield Item(
                key=f"cure {clock.job.pk} {clock.follower.pk}",
                starts=clock.ready_at,
                ends=clock.ready_at,
                summary=f"Ready: {what}, {clock.job.vehicle.name}",
                description=f"Then “{clock.follower.title}”.",
                url=_address("job_page", clock.follower.pk),
            )


def _parts(facts: CalendarFacts, cars: Collection[int] | None = None) -> Iterator[Item]:
    for need in facts.ordered:
        day = datetime.combine(need.expected_on, time(), UTC)
        if need.expected_on < facts.since.date() or (cars is not None and need.job.vehicle_id not in cars):
            continue
        yield Item(
            key=f"part {need.pk}",
            starts=day,
            ends=day,
            summary=f"Part due: {what_words(need)}, {need.job.vehicle.name}",
            description=f"For “{need.job.title}”.",
            url=f"{_address('job_page', need.job_id)}#need-{need.pk}",
            whole_day=True,
        )


def _events(facts: CalendarFacts, looks: bool, cars: Collection[int] | None = None) -> Iterator[Item]:
    for event in facts.events:
        coming = [entry.vehicle for entry in event.entries.all() if entry.withdrawn_at is None]
        names = [car.name for car in coming if cars is None or car.pk in cars]
        if cars is not None and not names:
            continue
        lines = [f"Cars: {', '.join(names)}." if names else "No car is entered."]
        if not looks:
            lines.append(f"Leave home by {dated_words(event.due_at, facts.zone)}.")
        yield Item(
            key=f"event {event.pk}",
            starts=event.gates_at,
            ends=event.ends_at,
            summary=event.name,
            description="\n".join(lines),
            place=event.place,
            url=_address("event_page", event.pk),
        )


def _address(name: str, *named: int) -> str:
    return public(reverse(name, args=named))
