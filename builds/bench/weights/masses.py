"""Masses added, moved or taken out: the four loads and the centre of gravity afterwards."""

import re

from builds.bench.frame.drawing import Drawing, Label, Ring
from builds.bench.frame.sums import Answer, Ask, Given, Offered, Sum, SumError, Texts, Worked
from builds.bench.weights.car import WHEELS, plan_view
from builds.bench.weights.corner_weights import centre
from builds.bench.weights.springs_model import SpringChange, Stance, four, respond
from builds.bench.weights.stance import BARS, LOADS, RATES, SIZE, answers_after, loads_after, loads_of, stance_of
from garage.engine.said import said
from garage.engine.units import QuantityError

MOST_LINES = 40
_LINE = re.compile(r"(.*?)\s*([+-]?[\d.,]+(?:\s*(?:kg|lb|lbs))?)\s+at\s+([^;]+);\s*(.+)", re.ASCII)


def masses_of(text: str) -> list[tuple[str, float, float, float]]:
    """Name, kg, mm behind the front axle, mm right of the middle, from lines such as `driver 60 kg at 1350; -360`."""
    lines = [line.strip() for line in text.splitlines() if line.strip()]
    if not lines or len(lines) > MOST_LINES:
        raise SumError(f"Write one to {MOST_LINES} masses, one a line.", "masses")
    return [_read(line) for line in lines]


def _read(line: str) -> tuple[str, float, float, float]:
    parts = _LINE.fullmatch(line)
    if parts is None:
        raise SumError(
            f"“{line[:60]}”: write a mass, “at”, how far behind the front axle; how far right of the middle, "
            "such as driver 60 kg at 1350; -360.",
            "masses",
        )
    try:
        mass, x, y = (said(parts[at], unit, unit) for at, unit in ((2, "kg"), (3, "mm"), (4, "mm")))
    except QuantityError as refusal:
        raise SumError(f"“{line[:60]}”: {refusal}", "masses") from None
    return parts[1].strip(), float(mass), float(x), float(y)


def all_together(stance: Stance, masses: list[tuple[str, float, float, float]]) -> SpringChange:
    """The sum of what each does: the model is linear."""
    changes = [respond(stance, mass=mass, x=x, y=y) for _, mass, x, y in masses]
    loads = [sum(change.loads[wheel] for change in changes) for wheel in range(4)]
    sinks = [sum(change.sinks[wheel] for change in changes) for wheel in range(4)]
    return SpringChange(four(loads), four(sinks))


def _work(given: Given, texts: Texts) -> Worked:
    stance, corners = stance_of(given), loads_of(given)
    masses = masses_of(texts["masses"])
    change = all_together(stance, masses)
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
        for name, mass, x, y in masses
        for shape in (Ring((y, x), 40, "thin"), Label((y, x - 60), name or f"{mass:g}"))
    ]
    words = (
        "The car from above afterwards, its front at the top; "
        f"its centre of gravity {behind:.0f} mm behind the front axle."
    )
    shapes = (*plan_view(*size, loads), Ring((right, behind), size[0] / 40, "strong"), *spots)
    return Worked(answers, Drawing("Corner weights afterwards", words, shapes))


SUM = Sum(
    slug="masses",
    title="Masses added, moved, taken out",
    question="What happens to the corner weights when something is put in, moved or taken out?",
    asks=(
        Ask(
            "masses",
            "Masses",
            lines=True,
            example="driver 60 kg at 1350; -360\nspare wheel -14 kg at 3000; 0",
            note="One a line: kg, “at”, mm behind the front axle; mm right of the middle. Below 0 is taken out; "
            "to move something, take it out and put it in.",
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
    offered=Offered(readings=("corner_weights", "ballast_position"), systems=("seat",)),
)
