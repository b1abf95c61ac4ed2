"""The plan for the wall, on two pages: the cars and the picture of the whole way, then the evenings."""

from collections.abc import Iterator, Sequence

from reportlab.lib.units import mm
from reportlab.platypus import Flowable, Table

from builds.paper.pages.plan_sheet import PlanSheet, WallCar
from builds.paper.sheets.plan_evenings import MARK, Evenings, Heading
from builds.paper.sheets.plan_strip import PlanStrip
from builds.plan.pages.left_out import LeftOut
from builds.verdict.sheet import running
from garage.sheets.figures import APART, FLUSH
from garage.sheets.frame import sheet
from garage.sheets.kit import gap, line, nothing, runs
from garage.sheets.rows import Bullet
from garage.sheets.tag import Box
from garage.sheets.tapes import tape

IN_ONE = 4  # cars under each other; more stand in two columns


def plan_sheet(rows: PlanSheet) -> bytes:
    """The sheet as PDF bytes."""
    return sheet(lambda: _story(rows), running(rows.head, "The plan", rows.planned), rows.head.paper, wide=True)


def _story(rows: PlanSheet) -> list[Flowable]:
    story = _cars([WallCarRow(car) for car in rows.cars])
    story += [line(" ".join(rows.lacks), "fine bold")] if rows.lacks else []
    if rows.strip:
        story += [gap(1 * mm), PlanStrip(rows.strip, rows.marks)]
    if not (rows.days or rows.wanted or rows.left_out):
        return story + nothing("Nothing is planned.")

    def aside(most: int) -> list[Flowable]:
        return [*_wanted(rows.wanted, most), *_left_out(rows.left_out, most)]

    return [*story, Evenings(rows.days, rows.marks, aside)]


class WallCarRow(Flowable):
    """A car's tape, its name, and what is said of it."""

    def __init__(self, car: WallCar) -> None:
        super().__init__()
        self.car = car
        self.words = runs([(f"{car.name}.", "bold"), *((words, "") for words in car.words)], "small")

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.width, self.height = width, self.words.wrap(width - MARK - 2 * mm, height)[1] + 1 * mm
        return width, self.height

    def draw(self) -> None:
        tape(self.canv, Box(0, self.height - 4.2 * mm, MARK, 3.6 * mm), self.car.tape, self.car.mark)
        self.words.drawOn(self.canv, MARK + 2 * mm, self.height - self.words.height)


def _cars(cars: Sequence[Flowable]) -> list[Flowable]:
    if len(cars) <= IN_ONE:
        return [gap(1.5 * mm), *cars]
    half = -(-len(cars) // 2)
    table = Table([[list(cars[:half]), "", list(cars[half:])]], colWidths=["*", APART, "*"], style=FLUSH)
    return [gap(1.5 * mm), table]


def _wanted(wanted: Sequence[tuple[str, str]], most: int) -> Iterator[Flowable]:
    if not wanted:
        return
    yield Heading("Must be there, and by when")
    yield from (Bullet(f"{what}. {note}", "fine") for what, note in wanted[:most])
    if (more := len(wanted) - most) > 0:
        yield line(f"And {more} more, on the list of what is wanted.", "fine bold")


def _left_out(jobs: Sequence[LeftOut], most: int) -> Iterator[Flowable]:
    if not jobs:
        return
    yield Heading(f"Without a place in the plan: {len(jobs)}")
    yield from (Bullet(f"“{job.title}” ({job.car}). {job.why}", "fine") for job in jobs[:most])
    if (more := len(jobs) - most) > 0:
        yield line(f"And {more} more, on the page of the plan.", "fine bold")
