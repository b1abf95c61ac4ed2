"""Load the demo garage: invented cars, people and events, dated from now."""

from typing import Any

from django.core.management.base import BaseCommand, CommandParser

from builds.demo.actions.garage import load_demo
from garage import clock
from garage.models import Garage


class Command(BaseCommand):
    help = __doc__

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--if-empty", action="store_true", help="only if there is no garage")
        parser.add_argument("--time-zone", default="UTC", help="such as Europe/Lisbon")

    def handle(self, *args: Any, if_empty: bool, time_zone: str, **options: Any) -> None:
        if if_empty and Garage.objects.exists():
            return
        garage = load_demo(at=clock.now(), time_zone=time_zone)
        self.stdout.write(f"{garage} is loaded, with {garage.vehicles.count()} cars.")
