"""The demo garage, from builds/demo/*.toml: people, cars, events, jobs and what was done so far."""

import tomllib
from datetime import datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from django.db import transaction

from builds.demo.actions.checks import DemoChecks
from builds.demo.actions.gear import DemoGear
from builds.demo.actions.joints import DemoJoints
from builds.demo.actions.money import DemoMoney
from builds.demo.actions.readings import DemoReadings
from builds.demo.actions.room import FOLDER, DemoRoom
from builds.demo.actions.shelf import DemoShelf
from builds.demo.actions.sums import DemoSums
from builds.needs.actions import needs
from builds.recipes.actions import putting as recipes
from builds.recipes.engine.parse import load_shipped
from builds.shop.actions import shop
from builds.steps.actions import hold_points, jobs, steps
from builds.steps.actions import nights as overnight
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job
from builds.work.models.need import Need
from garage.actions import garages, hours, nights, people
from garage.engine.hours import DAYS, parse_clock, parse_day
from garage.models import Entry, Event, Garage, Membership, Night, Person, Skill, Station, Vehicle

SIGNED_AFTER = timedelta(minutes=10)
# In this order: money fits what the shelf has, sums take what was read.
ROOMS: tuple[type[DemoRoom], ...] = (DemoGear, DemoShelf, DemoJoints, DemoMoney, DemoChecks, DemoReadings, DemoSums)


class Demo:
    """One loading: the rows made so far, by name, and the moment from which days count.

    What each method is `given` is what the file says of it.
    """

    def __init__(self, at: datetime, zone: str) -> None:
        self.at, self.zone = at, ZoneInfo(zone)
        self.data: dict[str, Any] = tomllib.loads((FOLDER / "quayside.toml").read_text(encoding="utf-8"))
        self.garage = Garage.objects.create(name=self.data["name"], time_zone=zone, invented=True)
        garages.furnish(self.garage)
        self.skills = {skill.slug: skill for skill in Skill.objects.in_garage(self.garage)}
        self.stations = {station.slug: station for station in Station.objects.in_garage(self.garage)}
        self.members: dict[str, Membership] = {}
        self.cars: dict[str, Vehicle] = {}
        self.nights: dict[str, Night] = {}

    def moment(self, days: int, clock: str) -> datetime:
        """A local time so many days from today."""
        minute = parse_clock(*clock.split(":"))
        day = self.at.astimezone(self.zone).date() + timedelta(days=days)
        return datetime(day.year, day.month, day.day, minute // 60, minute % 60, tzinfo=self.zone)

    def person(self, given: dict[str, Any]) -> None:
        member = people.add(
            self.garage,
            role=given["role"],
            works=True,
            may_sign=True,
            skills=[self.skills[slug] for slug in given["skills"]],
            name=given["name"],
            surname=given["surname"],
            email=None,
        )
        week = [
            stretch
            for weekday, day in enumerate(DAYS)
            for stretch in parse_day(weekday, given["hours"].get(day.lower(), ""))
        ]
        hours.set_week(member, week=week)
        self.members[given["name"]] = member

    def car(self, given: dict[str, Any]) -> None:
        lengths = {f"{name}_um": given[f"{name}_mm"] * 1000 for name in ("wheelbase", "track_front", "track_rear")}
        self.cars[given["name"]] = Vehicle.objects.create(
            garage=self.garage,
            name=given["name"],
            tape=given["tape"],
            what=given["what"],
            state=given["state"],
            **lengths,
        )

    def event(self, given: dict[str, Any]) -> None:
        event = Event.objects.create(
            garage=self.garage,
            name=given["name"],
            place=given["place"],
            gates_at=self.moment(given["days"], given["gates"]),
            scrutineering_at=self.moment(given["days"], given["scrutineering"]),
            ends_at=self.moment(given.get("last_day", given["days"]), given["ends"]),
            travel_minutes=given["travel_minutes"],
        )
        event.people.set(self.members[name] for name in given["people"])
        for night in given.get("nights", []):
            self.nights[event.name] = nights.add(
                event,
                from_at=self.moment(given["days"], night["from"]),
                until_at=self.moment(given["days"], night["until"]),
                due_at=self.moment(given["days"] + 1, night["ready"]),
            )
        ways = {way["car"]: way for way in given["ways"]}
        for car, weight in given["entries"].items():
            way = ways[car]
            Entry.objects.create(
                event=event,
                vehicle=self.cars[car],
                weight=weight,
                travels=way["by"],
                tow=self.cars[way["behind"]] if "behind" in way else None,
                trailer=way.get("trailer", ""),
            )

    def work(self, given: dict[str, Any]) -> None:
        recipe = next(recipe for recipe in load_shipped() if recipe.key == given["recipe"])
        made = recipes.put(recipe, self.cars[given["car"]], by=self.owner, at=self.begun(given))
        for asked in given.get("weather", []):
            job = made[asked["job"]]
            job.needs_mc, job.needs_dry = asked["celsius"] * 1000, asked["dry"]
            job.save(update_fields=["needs_mc", "needs_dry"])
        for done in given["done"]:
            for need in Need.objects.of(made[done["job"]]):
                needs.got(need, by=self.owner, at=self.at - timedelta(hours=done["ended"]))
            self.worked(made[done["job"]], done)

    def weather(self, given: dict[str, Any]) -> None:
        """The shop's lows and highs from yesterday on, its heated hours, and what was read."""
        yesterday = self.moment(-1, "12:00").date()
        shop.set_days(
            self.garage,
            {
                yesterday + timedelta(days=place): (low * 1000, high * 1000)
                for place, (low, high) in enumerate(given["days"])
            },
        )
        for heated in given["heated"]:
            hours = [(stretch.since, stretch.until) for stretch in parse_day(0, heated["hours"])]
            weekdays = [DAYS.index(day.capitalize()) for day in heated["days"]]
            warm = heated["celsius"] * 1000
            shop.heat(self.garage, weekdays=weekdays, day=None, hours=hours, warm_mc=warm)
        for read in given["readings"]:
            shop.read(
                self.garage,
                by=self.members[read["by"]],
                at=self.at - timedelta(hours=read["ago"]),
                air_mc=round(read["celsius"] * 1000),
                humidity=read["humidity"],
                metal_mc=read["metal"] * 1000 if "metal" in read else None,
            )

    def job(self, given: dict[str, Any]) -> None:
        work = tuple(round(hours * 60) for hours in given["work"])
        written = self.begun({"done": [given["done"]] if "done" in given else []})
        job = jobs.add(
            self.cars[given["car"]],
            by=self.owner,
            at=written,
            title=given["title"],
            work=(work[0], work[1], work[2]),
            systems=given["systems"],
            kinds=given.get("kinds", []),
            rank=given.get("rank", ""),
            note=given.get("note", ""),
            skill=self.skills.get(given.get("skill", "")),
            stations={self.stations[slug]: 1 for slug in given.get("stations", [])},
        )
        for need in given.get("needs", []):
            day = self.moment(need["days"], "12:00").date()
            asked = {name: need[name] for name in ("what", "quantity", "supplier")}
            needs.add(job, at=written, expected_on=day, **asked)
        for what in given.get("hold_points", []):
            hold_points.add(job, what)
        if "night" in given:
            overnight.do_overnight(job, self.nights[given["night"]], by=self.owner, at=self.at)
        if "done" in given:
            self.worked(job, given["done"])

    @property
    def owner(self) -> Membership:
        return self.members[self.data["people"][0]["name"]]

    def begun(self, given: dict[str, Any]) -> datetime:
        """When the work was written down: a day before its first job was done."""
        ago = max((done["ended"] + 24 for done in given["done"]), default=20)
        return self.at - timedelta(hours=ago)

    def worked(self, job: Job, done: dict[str, Any]) -> None:
        """Start and finish a job in the past; sign its hold points if somebody did."""
        by = self.members[done["by"]]
        ended = self.at - timedelta(hours=done["ended"])
        steps.start(job, by=by, at=ended - timedelta(hours=done["hours"]))
        steps.finish(job, by=by, at=ended)
        if "signed" not in done:
            return
        eyes, when = self.members[done["signed"]], ended + SIGNED_AFTER
        for point in HoldPoint.objects.filter(job=job):
            point.job.refresh_from_db()
            value = done["tested"] if point.asks else ""
            hold_points.sign(point, by=eyes, at=when, value=value)


@transaction.atomic
def load_demo(*, at: datetime, time_zone: str = "UTC", owner: Person | None = None) -> Garage:
    """A garage full of invented work; `owner`, if given, becomes one of its owners."""
    demo = Demo(at, time_zone)
    for person in demo.data["people"]:
        demo.person(person)
    for car in demo.data["cars"]:
        demo.car(car)
    for event in demo.data["events"]:
        demo.event(event)
    demo.weather(demo.data["shop"])
    for work in demo.data["work"]:
        demo.work(work)
    for job in demo.data["jobs"]:
        demo.job(job)
    for room in ROOMS:
        room(demo.garage, demo.cars, demo.members, by=demo.owner, at=at).fill()
    if owner is not None:
        Membership.objects.create(garage=demo.garage, person=owner, role="owner", works=False, may_sign=True)
    return demo.garage
