"""The plan for the wall: what becomes of each car, the whole way as a picture, the evenings, what must be there."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime
from zoneinfo import ZoneInfo

from django.urls import reverse

from builds.plan.pages.day_list import Day
from builds.plan.pages.entered_cars import EnteredTag
from builds.plan.pages.left_out import LeftOut
from builds.plan.pages.strip import Strip
from builds.plan.pages.wall import PlanPage, load_plan_page
from builds.shelf.pages.want_page import WantPage, load_want_page
from builds.shelf.pages.want_sheet import to_come
from builds.verdict.pages import SheetHead, head_of
from garage.engine.moments import moment_words
from garage.models import Garage, Membership, Vehicle

TO_BE_HERE = ("find", "promised", "ordered", "car")  # how a want stands before it is to hand


@dataclass(frozen=True)
class WallCar:
    """What becomes of a car at its events; `mark` is the letter or number by which the picture and the list know it."""

    mark: str
    name: str
    tape: str
    words: tuple[str, ...]


@dataclass(frozen=True)
class PlanSheet:
    """`planned` is when and how much, `lacks` what the plan lacks and what stands against the way there; `wanted` is
    what must be there, with by when, the most pressing first; `left_out` are jobs without a place.
    """

    head: SheetHead
    planned: str
    lacks: tuple[str, ...]
    cars: tuple[WallCar, ...]
    strip: Strip | None
    days: tuple[Day, ...]
    wanted: tuple[tuple[str, str], ...]
    left_out: tuple[LeftOut, ...]

    @property
    def marks(self) -> dict[str, tuple[str, str]]:
        """By a car's name its mark and its tape."""
        return {car.name: (car.mark, car.tape) for car in self.cars}


def plan_sheet_rows(garage: Garage, at: datetime, reader: Membership | None = None, *, older: str = "") -> PlanSheet:
    """As the page of the plan says it to this reader, a command has none; `older` says that it is an older one."""
    page, wants = load_plan_page(garage, at, reader=reader, close=True), load_want_page(garage, at)
    days = page.items.days if page.items else ()
    at_work = {line.car: line.tape for day in days for line in day.lines}
    vehicles = [car.entry.vehicle for car in page.cars]
    return PlanSheet(
        head_of(garage, at, _each_once(vehicles), reverse("plan_page")),
        _planned(page, garage, at),
        tuple(filter(None, [older, page.hint, *page.troubles])),
        car_lines(page.by_car, at_work),
        page.strip,
        days,
        _wanted(wants),
        page.items.left_out if page.items else (),
    )


def _each_once(vehicles: Iterable[Vehicle]) -> list[Vehicle]:
    return list({car.pk: car for car in vehicles}.values())


def _planned(page: PlanPage, garage: Garage, at: datetime) -> str:
    jobs = f"{page.open_jobs} job{' is' if page.open_jobs == 1 else 's are'} open"
    if page.plan:
        return f"{jobs}. Planned {moment_words(page.plan.made_at, ZoneInfo(garage.time_zone), at)}."
    return f"{jobs}, not planned yet." if page.open_jobs else "Nothing to do is written down."


def car_lines(by_car: Iterable[list[EnteredTag]], at_work: dict[str, str]) -> tuple[WallCar, ...]:
    """Entered cars, each with what is said of it at its events, then the others that are worked on (name and tape)."""
    entered = [(cars[0].entry.vehicle, tuple(_sentences(cars))) for cars in by_car]
    lines = [(car.name, car.tape, words) for car, words in entered]
    known = {name for name, _, _ in lines}
    lines += [(name, tape, ("No event ahead.",)) for name, tape in at_work.items() if name not in known]
    marks = marks_of([name for name, _, _ in lines])
    return tuple(WallCar(mark, *told) for mark, told in zip(marks, lines, strict=True))


def _sentences(cars: list[EnteredTag]) -> Iterable[str]:
    """Of each of a car's events; what would be said again is not."""
    before = ""
    for car in cars:
        again = car.outlook.sentence == before
        yield f"{car.line}: the same." if again else f"{car.line}. {car.outlook.sentence}"
        before = car.outlook.sentence


def marks_of(names: list[str]) -> list[str]:
    """The first letter of each where no two share one, else numbers."""
    letters = [name[:1].upper() for name in names]
    if len(set(letters)) == len(letters):
        return letters
    return [str(number) for number in range(1, len(names) + 1)]


def _wanted(page: WantPage) -> tuple[tuple[str, str], ...]:
    """What is not to hand yet: the sooner something is to be done about it the earlier, then what has no day."""
    rows = [want for state, _, wants in page.groups if state in TO_BE_HERE for want in wants]
    rows.sort(key=lambda want: want.line.by.act_on if want.line.by else date.max)
    return tuple(map(to_come, rows))
