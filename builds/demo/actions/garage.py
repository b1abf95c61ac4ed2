"""The demo garage, from builds/demo/*.toml: people, cars, events, jobs and what was done so far."""

import tomllib
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

from django.db import transaction

from builds.demo.actions import joints as demo_joints
from builds.demo.actions import money as demo_money
from builds.demo.actions.checks import DemoChecks
from builds.demo.actions.gear import DemoGear
from builds.demo.actions.readings import DemoReadings
from builds.demo.actions.shelf import DemoShelf
from builds.needs.actions import needs
from builds.recipes import actions as recipes
from builds.recipes.engine.parse import load_shipped
from builds.shop.actions import shop
from builds.steps.actions import hold_points, jobs, steps
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job
from garage.actions import garages, hours, people
from garage.engine.hours import DAYS, parse_clock, parse_day
from garage.models import Entry, Event, Garage, Membership, Person, Skill, Station, Vehicle

FILE = Path(__file__).parents[1] / "quayside.toml"
SIGNED_AFTER = timedelta(minutes=10)


class Demo:
    """One loading: the rows made so far, by name, and the moment from which days count."""

    def __init__(self, at: datetime, zone: str) -> None:
        self.at, self.zone = at, ZoneInfo(zone)
        self.data: dict[str, Any] = tomllib.loads(FILE.read_text(encoding="utf-8"))
        self.garage = Garage.objects.create(name=self.data["name"], time_zone=zone)
        garages.furnish(self.garage)
        self.skills = {row.slug: row for row in Skill.objects.in_garage(self.garage)}
        self.stations = {row.slug: row for row in Station.objects.in_garage(self.garage)}
        self.members: dict[str, Membership] = {}
        self.cars: dict[str, Vehicle] = {}

    def moment(self, days: int, clock: str) -> datetime:
        """A local time so many days from today."""
        minute = parse_clock(*clock.split(":"))
        day = self.at.astimezone(self.zone).date() + timedelta(days=days)
        return datetime(day.year, day.month, day.day, minute // 60, minute % 60, tzinfo=self.zone)

    def person(self, row: dict[str, Any]) -> None:
        member = people.add(
            self.garage,
            role=row["role"],
            works=True,
            skills=[self.skills[slug] for slug in row["skills"]],
            name=row["name"],
            surname=row["surname"],
            email=None,
        )
        week = [
            stretch
            for weekday, day in enumerate(DAYS)
            for stretch in parse_day(weekday, row["hours"].get(day.lower(), ""))
        ]
        hours.set_week(member, week=week)
        self.members[row["name"]] = member

    def car(self, row: dict[str, Any]) -> None:
        lengths = {f"{name}_um": row[f"{name}_mm"] * 1000 for name in ("wheelbase", "track_front", "track_rear")}
        self.cars[row["name"]] = Vehicle.objects.create(
            garage=self.garage,
            name=row["name"],
            tape=row["tape"],
            what=row["what"],
            state=row["state"],
            **lengths,
        )

    def event(self, row: dict[str, Any]) -> None:
        event = Event.objects.create(
            garage=self.garage,
            name=row["name"],
            place=row["place"],
            gates_at=self.moment(row["days"], row["gates"]),
            scrutineering_at=self.moment(row["days"], row["scrutineering"]),
            ends_at=self.moment(row["days"], row["ends"]),
            travel_minutes=row["travel_minutes"],
        )
        for car, weight in row["entries"].items():
            Entry.objects.create(event=event, vehicle=self.cars[car], weight=weight)

    def work(self, row: dict[str, Any]) -> None:
        recipe = next(each for each in load_shipped() if each.key == row["recipe"])
        made = recipes.put(recipe, self.cars[row["car"]], by=self.owner, at=self.begun(row))
        for asked in row.get("weather", []):
            job = made[asked["job"]]
            job.needs_mc, job.needs_dry = asked["celsius"] * 1000, asked["dry"]
            job.save(update_fields=["needs_mc", "needs_dry"])
        for done in row["done"]:
            self.worked(made[done["job"]], done)

    def weather(self, row: dict[str, Any]) -> None:
        """The shop's lows and highs from yesterday on, its heated hours, and what was read."""
        yesterday = self.moment(-1, "12:00").date()
        shop.set_days(
            self.garage,
            {
                yesterday + timedelta(days=place): (low * 1000, high * 1000)
                for place, (low, high) in enumerate(row["days"])
            },
        )
        for heated in row["heated"]:
            hours = [(each.since, each.until) for each in parse_day(0, heated["hours"])]
            weekdays = [DAYS.index(day.capitalize()) for day in heated["days"]]
            warm = heated["celsius"] * 1000
            shop.heat(self.garage, weekdays=weekdays, day=None, hours=hours, warm_mc=warm)
        for read in row["readings"]:
            shop.read(
                self.garage,
                by=self.members[read["by"]],
                at=self.at - timedelta(hours=read["ago"]),
                air_mc=round(read["celsius"] * 1000),
                humidity=read["humidity"],
                metal_mc=read["metal"] * 1000 if "metal" in read else None,
            )

    def job(self, row: dict[str, Any]) -> None:
        work = tuple(round(hours * 60) for hours in row["work"])
        written = self.begun({"done": [row["done"]] if "done" in row else []})
        job = jobs.add(
            self.cars[row["car"]],
            by=self.owner,
            at=written,
            title=row["title"],
            work=(work[0], work[1], work[2]),
            systems=row["systems"],
            rank=row.get("rank", ""),
            note=row.get("note", ""),
            skill=self.skills.get(row.get("skill", "")),
            stations={self.stations[slug]: 1 for slug in row.get("stations", [])},
        )
        for need in row.get("needs", []):
            day = self.moment(need["days"], "12:00").date()
            asked = {name: need[name] for name in ("what", "quantity", "supplier")}
            needs.add(job, at=written, expected_on=day, **asked)
        for what in row.get("hold_points", []):
            hold_points.add(job, what)
        if "done" in row:
            self.worked(job, row["done"])

    @property
    def owner(self) -> Membership:
        return self.members[self.data["people"][0]["name"]]

    def begun(self, row: dict[str, Any]) -> datetime:
        """When the work was written down: a day before its first job was done."""
        ago = max((done["ended"] + 24 for done in row["done"]), default=20)
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
    for row in demo.data["people"]:
        demo.person(row)
    for row in demo.data["cars"]:
        demo.car(row)
    for row in demo.data["events"]:
        demo.event(row)
    demo.weather(demo.data["shop"])
    for row in demo.data["work"]:
        demo.work(row)
    for row in demo.data["jobs"]:
        demo.job(row)
    DemoGear(demo.garage, demo.cars, demo.members, by=demo.owner, at=at).fill()
    DemoShelf(demo.garage, demo.cars, demo.members, by=demo.owner, at=at).fill()
    demo_joints.fill(demo.cars, demo.members, at=at)
    demo_money.fill(demo.garage, demo.cars, by=demo.owner, at=at)
    DemoChecks(demo.garage, demo.cars, demo.members, by=demo.owner, at=at).fill()
    DemoReadings(demo.garage, demo.cars, demo.members, by=demo.owner, at=at).fill()
    if owner is not None:
        Membership.objects.create(garage=demo.garage, person=owner, role="owner", works=False)
    return demo.garage
