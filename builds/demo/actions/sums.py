"""The demo garage's bench sums, from builds/demo/sums.toml: one of each kind kept on a car."""

from datetime import timedelta
from typing import Any

from builds.bench.catalogue import SUMS
from builds.bench.frame.read import texts_of
from builds.bench.frame.sums import Sum
from builds.demo.actions.room import DemoRoom
from builds.sums import actions
from builds.sums.facts.car import car_figures
from garage.models import Vehicle


class DemoSums(DemoRoom):
    file = "sums.toml"

    def fill(self) -> None:
        for given in self.data["kept"]:
            self.kept(given)

    def kept(self, given: dict[str, Any]) -> None:
        car, at = self.cars[given["car"]], self.at - timedelta(hours=given["hours"])
        for slug in given["sums"]:
            asked = SUMS[slug]
            actions.keep(car, asked, self.typed(car, asked), by=self.members[given["by"]], at=at)

    def typed(self, car: Vehicle, asked: Sum) -> dict[str, str]:
        """The example of the sum, with what the car has already put over it."""
        known = car_figures(car, asked, texts_of(asked, asked.example), self.at)
        return asked.example | {slug: figure.typed for slug, figure in known.items() if not figure.changed}
