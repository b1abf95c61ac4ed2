"""Deeds in words: what each does, how it is undone, and who may not do it."""

from datetime import date
from functools import cached_property
from typing import Any

from builds.cure.engine.degrees import degrees_words
from builds.cure.facts.shop import celsius
from builds.planner.words import listed_in_words
from builds.remedies.facts.deeds import Deed
from builds.work.models.job import Job
from builds.work.models.need import Need
from garage.access import refuse_arranging, refuse_hours, refuse_working
from garage.engine.hours import minute_words
from garage.engine.moments import day_words
from garage.engine.units import unit_for
from garage.models import Entry, Event, Garage, Membership, Skill, Station, Vehicle

ARRANGED = ("hands", "room", "home", "enter", "weigh")


class Book:
    """Rows of a garage that deeds speak of; each kind of row is one query, at first use.

    KeyError for a row that is not there, or not there any more.
    """

    def __init__(self, garage: Garage) -> None:
        self.garage = garage

    def _by_pk(self, rows: Any) -> dict[int, Any]:
        return {row.pk: row for row in rows}

    @cached_property
    def members(self) -> dict[int, Membership]:
        rows = Membership.objects.in_garage(self.garage).active().select_related("person")
        return self._by_pk(rows)

    @cached_property
    def skills(self) -> dict[int, Skill]:
        return self._by_pk(Skill.objects.in_garage(self.garage))

    @cached_property
    def jobs(self) -> dict[int, Job]:
        return self._by_pk(Job.objects.in_garage(self.garage).open().select_related("vehicle"))

    @cached_property
    def needs(self) -> dict[int, Need]:
        return self._by_pk(Need.objects.in_garage(self.garage).open().select_related("job"))

    @cached_property
    def stations(self) -> dict[int, Station]:
        return self._by_pk(Station.objects.in_garage(self.garage))

    @cached_property
    def entries(self) -> dict[int, Entry]:
        rows = Entry.objects.in_garage(self.garage)
        return self._by_pk(rows.select_related("event__garage", "vehicle"))

    @cached_property
    def events(self) -> dict[int, Event]:
        return self._by_pk(Event.objects.in_garage(self.garage))

    @cached_property
    def vehicles(self) -> dict[int, Vehicle]:
        return self._by_pk(Vehicle.objects.in_garage(self.garage).kept())

    def refusal(self, deed: Deed, by: Membership) -> str | None:
        """Why `by` may not do it, as one sentence."""
        if deed.kind in ("session", "off"):
            return refuse_hours(by, self.members[deed.numbers[0]])
        return refuse_arranging(by) if deed.kind in ARRANGED else refuse_working(by)

    def told(self, deed: Deed) -> str:
        """What it does, as a sentence without its full stop."""
        words: str = getattr(self, f"_{deed.kind}")(*deed.numbers, *[deed.day] * bool(deed.day))
        return words

    def undo(self, deed: Deed) -> str:
        """How it is undone, to be read after "To undo:"."""
        first = deed.numbers[0] if deed.numbers else 0
        if deed.kind in ("session", "off"):
            return f"take that day out on the page of {self.members[first]}"
        if deed.kind == "part":
            day = self.needs[first].expected_on
            was = f" back to {day_words(day)}" if day else ""
            return f"set the date of {self.needs[first]}{was} on its job"
        if deed.kind == "room":
            return f"give {self.stations[first]} its room back among the stations"
        return {
            "hands": "take them out on the people page",
            "defer": "take the earliest start off the work",
            "heat": "take the heated hours out on the page of the shop",
            "hold": "change the days on the page of the shop",
            "home": "enter the car again on the page of the event",
            "enter": "take the car out on the page of the event",
            "weigh": "change the weight back on the page of the event",
        }.get(deed.kind, "")

    def _again(self) -> str:
        return "The same work in a better order"

    def _session(self, member: int, since: int, until: int, day: date) -> str:
        return f"{self.members[member]} comes {_when(day, since, until)} as well"

    def _off(self, member: int, day: date) -> str:
        return f"{self.members[member]} is not in on {day_words(day)}"

    def _hands(self, skill: int, since: int, until: int, day: date) -> str:
        who = f"Somebody new who can {self.skills[skill].slug}" if skill else "Somebody new"
        return f"{who} comes {_when(day, since, until)}"

    def _defer(self, entry: int, *jobs: int) -> str:
        titles = listed_in_words([str(self.jobs[job]) for job in jobs])
        verb = "waits" if len(jobs) == 1 else "wait"
        return f"{titles} {verb} until {self.entries[entry].vehicle} has left"

    def _part(self, need: int, day: date) -> str:
        row = self.needs[need]
        was = f", not {day_words(row.expected_on)}" if row.expected_on else ""
        return f"{row} for {row.job} comes {day_words(day)}{was}"

    def _heat(self, since: int, until: int, warm_mc: int, day: date) -> str:
        return f"The shop is heated to {self.degrees(warm_mc)} {_when(day, since, until)}"

    def _hold(self, warm_mc: int, day: date) -> str:
        return f"The shop stays at {self.degrees(warm_mc)} from {day_words(day)} on"

    def _room(self, station: int) -> str:
        row = self.stations[station]
        return f"{row} has room for {row.capacity + 1} at once, not {row.capacity}"

    def _home(self, entry: int) -> str:
        return f"{self.entries[entry].vehicle} does not go to {self.entries[entry].event}"

    def _enter(self, event: int, vehicle: int, weight: int) -> str:
        row = f"{self.vehicles[vehicle]} goes to {self.events[event]}"
        return f"{row}, weight {weight}"

    def _weigh(self, entry: int, weight: int) -> str:
        return f"{self.entries[entry]} counts {weight} of 9, not {self.entries[entry].weight}"

    def degrees(self, thousandths: int) -> str:
        return degrees_words(celsius(thousandths), unit_for("temperature", self.garage.units))


def _when(day: date, since: int, until: int) -> str:
    return f"{day_words(day)} {minute_words(since)}–{minute_words(until)}"
