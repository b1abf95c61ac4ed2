"""Masses added, moved or taken out: the four loads and the centre of gravity afterwards."""

import re
from dataclasses import dataclass

from builds.bench.frame.drawing import Drawing, Label, Ring
from builds.bench.frame.lines import lines_of
from builds.bench.frame.sums import Answer, Ask, Column, Given, Offered, Sum, SumError, Table, Texts, Worked
from builds.bench.weights.car import LEFT_RIGHT, WHEELS, plan_view
from builds.bench.weights.corner_weights import centre
from builds.bench.weights.springs_model import GRAVITY, SpringChange, Stance, four, respond
from builds.bench.weights.stance import BARS, LOADS, RATES, SIZE, answers_after, loads_after, loads_of, stance_of
from garage.engine.said import said
from garage.engine.units import QuantityError

MOST_LINES = 40
FARTHEST, WIDEST = 10_000.0, 2_000.0  # mm along the car, and to its side
_MASS, _SPOT = r"(.*?)\s*([+-]?[\d.,]+(?:\s*(?:kg|lb|lbs|g))?)\s+", r"([^;]+);\s*(.+?)"
_AT = re.compile(rf"{_MASS}at\s+{_SPOT}", re.ASCII)
_MOVED = re.compile(rf"{_MASS}from\s+{_SPOT}\s+to\s+{_SPOT}", re.ASCII)


@dataclass(frozen=True, slots=True)
class MovedMass:
    """A line of the list: kg put in (out below 0) at each spot, mm behind the front axle and right of the middle."""

    line: str
    name: str
    spots: tuple[tuple[float, float, float], ...]


def masses_of(text: str) -> list[MovedMass]:
    """From lines such as `driver 60 kg at 1350; -360` and `battery 14 kg from 600; 300 to 2400; -300`."""
    lines = lines_of(text)
    if len(lines) > MOST_LINES or not text.strip():
        raise SumError(f"Write one to {MOST_LINES} masses, one a line.", "masses")
    return [_read(line) for line in lines]


def _read(line: str) -> MovedMass:
    moved, at = _MOVED.fullmatch(line), _AT.fullmatch(line)
    parts = moved or at
    if parts is None:
        raise SumError(
            f"“{line[:60]}”: write a mass, “at”, how far behind the front axle; how far right of the middle, such as "
            "driver 60 kg at 1350; -360, or “from” one place “to” another.",
            "masses",
        )
    try:
        mass, *places = (
            float(said(text, unit, unit)) for text, unit in zip(parts.groups()[1:], ("kg", *["mm"] * 4), strict=False)
        )
    except QuantityError as refusal:
        raise SumError(f"“{line[:60]}”: {refusal}", "masses") from None
    if max(map(abs, places)) > FARTHEST:
        raise SumError(f"“{line[:60]}”: that is more than 10 m away.", "masses")
    if max(map(abs, places[1::2])) > WIDEST:
        raise SumError(
            f"“{line[:60]}”: that is more than 2 m to the side. First comes how far behind the front axle, then how "
            "far right of the middle.",
            "masses",
        )
    first = (mass, places[0], places[1])
    return MovedMass(line, parts[1].strip(), ((-mass, *first[1:]), (mass, places[2], places[3])) if moved else (first,))


def change_of(stance: Stance, moved: MovedMass) -> SpringChange:
    """What a line does by itself."""
    return _added([respond(stance, mass=mass, x=x, y=y) for mass, x, y in moved.spots])


def _added(changes: list[SpringChange]) -> SpringChange:
    """The sum of what each does: the model is linear."""
    loads = [sum(change.loads[wheel] for change in changes) for wheel in range(4)]
    sinks = [sum(change.sinks[wheel] for change in changes) for wheel in range(4)]
    return SpringChange(four(loads), four(sinks))


def _work(given: Given, texts: Texts) -> Worked:
    stance, corners = stance_of(given), loads_of(given)
    masses = masses_of(texts["masses"])
    changes = [change_of(stance, moved) for moved in masses]
    change = _added(changes)
    after = loads_after(corners, change)
    if min(after.fl, after.fr, after.rl, after.rr) <= 0:
        raise SumError("A wheel would hang in the air: look through the masses again.", "masses")
    size = given["wheelbase"], given["track_front"], given["track_rear"]
    behind, right = centre(after, *size)
    answers = (
        *answers_after(corners, change),
        Answer("behind_after", "Centre of gravity, behind the front axle, after", behind, "mm", 0),
        Answer("right_after", "Centre of gravity, right of the middle, after", right, "mm", 0),
    )
    loads = dict(zip(WHEELS, (after.fl, after.fr, after.rl, after.rr), strict=True))
    spots = [
        shape
        for moved in masses
        for mass, x, y in moved.spots
        for shape in (Ring((y, x), 40, "thin" if mass > 0 else "stop"), Label((y, x - 60), moved.name or f"{mass:g}"))
    ]
    words = (
        "The car from above afterwards, its front at the top; "
        f"its centre of gravity {behind:.0f} mm behind the front axle."
    )
    shapes = (*plan_view(*size, loads), Ring((right, behind), size[0] / 40, "strong"), *spots)
    return Worked(answers, Drawing("Corner weights afterwards", words, shapes), table=_each(masses, changes))


def _each(masses: list[MovedMass], changes: list[SpringChange]) -> Table:
    """What each line of the list does by itself to the four loads."""
    columns = (Column("Each alone"), *(Column(label, "kg", 1) for _, label, _ in LEFT_RIGHT))
    rows: tuple[tuple[float | str, ...], ...] = tuple(
        (moved.line, *(load / GRAVITY for load in change.loads)) for moved, change in zip(masses, changes, strict=True)
    )
    return Table("What each does to the loads", columns, rows)


SUM = Sum(
    slug="masses",
    title="Masses added, moved, taken out",
    question="What happens to the corner weights when something is put in, moved or taken out?",
    asks=(
        Ask(
            "masses",
            "Masses",
            lines=True,
            what_if=True,
            example="driver 60 kg at 1350; -360\nspare wheel -14 kg at 3000; 0",
            note="One a line: kg, “at”, mm behind the front axle; mm right of the middle. Below 0 is taken out; "
            "“from” a place “to” another is moved; a line that begins with # is left out.",
        ),
        *LOADS,
        *SIZE,
        *RATES,
        *BARS,
    ),
    work=_work,
    formula=(
        "loads change by K A q, q = (Aᵀ K A)⁻¹ b, b the mass and its moments",
        "total and centre follow from statics alone",
    ),
    source="Own derivation: four springs under a rigid car, in balance",
    assumes="Bars unhooked unless said, a stiff chassis, straight springs.",
    limits="More than 5 kg added or moved makes weights, heights, camber and toe void: weigh again.",
    caution="Never work under a car that stands on scales. What is put in must be held as the organiser asks.",
    offered=Offered(
        readings=("corner_weights", "ballast_position"),
        kinds=("mass_moved",),
        systems=("seat",),
        checks=("total_after", "front_after", "left_after", "cross_after"),
    ),
)
