"""Plan a garage and print the plan: tonight in working order, each entered car, what finds no place."""

from datetime import datetime
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils import timezone

from builds.management.lookups import garages_called
from builds.plan.actions.follow import make_plan
from builds.plan.actions.last_days import find_last_days
from builds.plan.actions.odds import find_odds
from builds.plan.actions.plans import Overtaken
from builds.plan.pages.wall import PlanPage, load_plan_page
from builds.verdict.facts.verdict import verdicts
from garage import clock
from garage.actions.refused import Refused
from garage.models import Garage


class Command(BaseCommand):
    help = "Plan every garage, or one, and print its plan."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--garage", help="its name; else every garage")
        parser.add_argument("--seconds", type=float, default=0.0, help="time to search (0)")

    def handle(self, *args: Any, **options: Any) -> None:
        if not 0 <= options["seconds"] <= 3600:
            raise CommandError("Seconds lie between 0 and 3600.")
        for garage in garages_called(options["garage"]):
            self._plan(garage, options["seconds"])

    def _plan(self, garage: Garage, seconds: float) -> None:
        at = clock.now()
        with timezone.override(garage.time_zone):
            self.stdout.write(self.style.MIGRATE_HEADING(f"{garage}, {timezone.localtime(at):%A %H:%M}"))
            try:
                plan = make_plan(garage, at=at, seconds=seconds).pk
                find_last_days(plan)
                find_odds(plan)
            except Refused as refused:
                raise CommandError(str(refused)) from refused
            except Overtaken as overtaken:
                raise CommandError("Something was written while it was planned, each time: try again.") from overtaken
            self._print(garage, load_plan_page(garage, at), at)

    def _print(self, garage: Garage, view: PlanPage, at: datetime) -> None:
        if view.hint:
            self.stdout.write(view.hint)
        self._first_day(view)
        self.stdout.write("")
        self._cars(garage, view, at)
        for job in view.items.left_out if view.items else ():
            self.stdout.write(f"No place: “{job.title}” ({job.car}). {job.why}")

    def _first_day(self, view: PlanPage) -> None:
        if not view.items or not view.items.days:
            self.stdout.write("Nothing is to be done.")
            return
        day = view.items.days[0]
        self.stdout.write(f"\n{day.title}")
        for line in day.lines:
            until = f" {'ready' if line.curing else 'to'} {line.until}" if line.until else ""
            more = ", ".join(filter(None, [line.rank, line.who]))
            self.stdout.write(f"    {line.since}{until}  {line.title} ({line.car}) {more}".rstrip())

    def _cars(self, garage: Garage, view: PlanPage, at: datetime) -> None:
        fit = verdicts(garage, at)
        for car in view.cars:
            verdict = fit[car.entry.vehicle_id]
            warned = "Do not drive. " if verdict.do_not_drive else ""
            self.stdout.write(f"{car.entry.vehicle.name}: {warned}{verdict.sentence}.")
            self.stdout.write(f"  {car.outlook.of(car.entry.event.name)}")
            if car.outlook.outcome.obstacle:
                self.stdout.write(f"  First in its way: {car.outlook.outcome.obstacle}")
        for sentence in view.troubles:
            self.stdout.write(sentence)
