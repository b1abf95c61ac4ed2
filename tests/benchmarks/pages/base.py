"""A made garage to begin with: the demo, six cars, three hundred open jobs and a plan."""

from copy import copy
from dataclasses import dataclass, field
from datetime import datetime, timedelta

from builds.demo.actions.garage import load_demo
from builds.plan.actions.follow import make_plan
from builds.plan.actions.last_days import find_last_days
from builds.plan.actions.odds import find_odds
from builds.recipes.actions import putting as recipes
from builds.recipes.engine.parse import load_shipped
from builds.steps.actions import jobs
from builds.work.models.job import Job
from garage.actions import hours
from garage.engine.hours import Stretch
from garage.models import Garage, Membership, Person, Station, Vehicle
from parts.actions.places import car_place, house_place
from parts.models import Place

CARS, OPEN_JOBS = 6, 300
RECIPES_EACH = 3
YEAR = timedelta(days=365)
# Plans that stood when a session began are kept up to so many.
PLANS_KEPT = 30


@dataclass
class Made:
    """A garage at a moment, kept for so many years; `past` are its finished jobs once there are some."""

    garage: Garage
    at: datetime
    years: int
    cars: list[Vehicle]
    members: list[Membership]
    past: list[Job] = field(default_factory=list)

    @property
    def owner(self) -> Membership:
        return self.members[0]

    def place(self, kind: str) -> Place:
        return house_place(self.garage, kind)

    def moments(self, count: int) -> list[datetime]:
        """So many, evenly over the years until a week ago."""
        ago = self.years * YEAR - timedelta(days=7)
        return [self.at - timedelta(days=7) - ago * (count - number) / count for number in range(count)]


def begun(at: datetime, years: int) -> Made:
    """The demo with as many cars, and open jobs of shipped recipes and by hand."""
    garage = load_demo(at=at)
    members = list(Membership.objects.in_garage(garage).order_by("pk"))
    for name in ("Abel", "Runa"):
        person = Person.objects.create(name=name, email=f"{name.lower()}@example.org", password="!")  # noqa: S106
        members.append(Membership.objects.create(garage=garage, person=person, role="helper", may_sign=True))
        hours.set_week(members[-1], week=[Stretch(1, 18 * 60, 22 * 60), Stretch(3, 18 * 60, 22 * 60)])
    for number in range(CARS - garage.vehicles.count()):
        Vehicle.objects.create(garage=garage, name=f"Plover {number + 1}", tape="yellow", state="driveable")
    made = Made(garage, at, years, list(garage.vehicles.order_by("pk")), members)
    for car in made.cars:
        car_place(car)
    _write_jobs(made)
    return made


def _write_jobs(made: Made) -> None:
    shipped, written = load_shipped(), made.at - timedelta(days=3)
    for place, car in enumerate(made.cars):
        for number in range(RECIPES_EACH):
            recipe = shipped[(RECIPES_EACH * place + number) % len(shipped)]
            recipes.put(recipe, car, by=made.owner, at=written)
    bay = Station.objects.in_garage(made.garage).get(slug="bay")
    for number in range(OPEN_JOBS - Job.objects.in_garage(made.garage).open().count()):
        jobs.add(
            made.cars[number % CARS],
            by=made.owner,
            at=written,
            title=f"Tidy bracket {number}",
            work=(20, 40, 90),
            systems=["body"],
            kinds=[],
            rank="wanted" if number % 3 else "needed",
            stations={bay: 1} if number % 5 == 0 else {},
        )


def planned(made: Made) -> None:
    """A plan on the wall with its odds, and those that stood before it."""
    row = make_plan(made.garage, at=made.at)
    find_last_days(row.pk, seconds=60)
    find_odds(row.pk)
    row.refresh_from_db()
    for number in range(PLANS_KEPT, 0, -1):
        old, day = copy(row), made.at - timedelta(days=number)
        old.pk, old.made_at, old.session_at = None, day, day + timedelta(hours=1)
        old.save(force_insert=True)
    row.delete()  # what is on the wall was put up last
    row.save(force_insert=True)
