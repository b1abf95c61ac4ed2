"""Corner weights: total, front, left and cross, and where the centre of gravity lies."""

from dataclasses import dataclass

from builds.bench.frame.drawing import Drawing, Ring
from builds.bench.frame.sums import Answer, Ask, Given, Offered, Sum, Texts, Worked
from builds.bench.weights.car import LEFT_RIGHT, TRACKS, WHEELBASE, WHEELS, plan_view


@dataclass(frozen=True, slots=True)
class Corners:
    """Loads of the four wheels, all kg (or all N: shares do not care)."""

    fl: float
    fr: float
    rl: float
    rr: float

    @property
    def total(self) -> float:
        return self.fl + self.fr + self.rl + self.rr

    @property
    def front(self) -> float:
        """Per cent on the front wheels."""
        return 100 * (self.fl + self.fr) / self.total

    @property
    def left(self) -> float:
        """Per cent on the left wheels."""
        return 100 * (self.fl + self.rl) / self.total

    @property
    def cross(self) -> float:
        """Per cent on front right and rear left, the diagonal that this project calls cross."""
        return 100 * (self.fr + self.rl) / self.total

    @property
    def difference(self) -> float:
        """Front right and rear left less front left and rear right."""
        return self.fr + self.rl - self.fl - self.rr


def centre(corners: Corners, wheelbase: float, track_front: float, track_rear: float) -> tuple[float, float]:
    """Where the centre of gravity lies: mm behind the front axle, mm right of the middle.

    Source: moments about the front axle and the middle; Milliken & Milliken, *Race Car Vehicle
    Dynamics*, chapter 18 (from memory).
    """
    total = corners.total
    behind = wheelbase * (corners.rl + corners.rr) / total
    right = ((corners.fr - corners.fl) * track_front / 2 + (corners.rr - corners.rl) * track_rear / 2) / total
    return behind, right


def _work(given: Given, texts: Texts) -> Worked:
    corners = Corners(*(given[slug] for slug in WHEELS))
    size = given["wheelbase"], given["track_front"], given["track_rear"]
    behind, right = centre(corners, *size)
    pad = given["pad"]
    # pads repeat to about 0.1 % of the car, however finely they read: common practice, no source
    share = max(100 * pad / corners.total, 0.1)
    side = "right of" if right > 0 else "left of"
    answers = (
        Answer("total", "All together", corners.total, "kg", 1, 2 * pad),
        Answer("front", "On the front", corners.front, "%", 1, share),
        Answer("left", "On the left", corners.left, "%", 1, share),
        Answer("cross", "Cross, front right and rear left", corners.cross, "%", 1, share),
        Answer("difference", "That diagonal, more than the other", corners.difference, "kg", 1, 2 * pad),
        Answer("behind", "Centre of gravity, behind the front axle", behind, "mm", 0),
        Answer("right", "Centre of gravity, right of the middle", right, "mm", 0),
    )
    words = (
        f"The car from above, its front at the top. The centre of gravity lies {behind:.0f} mm behind the front axle "
        f"and {abs(right):.0f} mm {side} the middle."
    )
    spot = Ring((right, behind), size[0] / 40, "strong")
    loads = {slug: given[slug] for slug in WHEELS}
    return Worked(answers, Drawing("Corner weights", words, (*plan_view(*size, loads), spot)))


SUM = Sum(
    slug="corner-weights",
    title="Corner weights",
    question="How is the weight spread, and where is the centre of gravity?",
    asks=(
        *(
            Ask(slug, label, "kg", example, above=0, most=5_000, reading=f"corner_weights.{slug}")
            for slug, label, example in LEFT_RIGHT
        ),
        WHEELBASE,
        *TRACKS,
        Ask("pad", "What one scale resolves", "kg", "0.5", least=0, most=50, default="0.5"),
    ),
    work=_work,
    formula=(
        "front % = 100 (FL + FR) / W, left % = 100 (FL + RL) / W, cross % = 100 (FR + RL) / W",
        "behind the front axle = wheelbase (RL + RR) / W",
        "right of the middle = [(FR − FL) front track / 2 + (RR − RL) rear track / 2] / W",
    ),
    source="Statics; Milliken & Milliken, Race Car Vehicle Dynamics, chapter 18 (from memory)",
    assumes="A level floor, the car as raced with its driver, pressures set, bars unhooked, settled by rolling.",
    limits="Scales repeat to about 0.1 % of the car. Cross is front right and rear left; some name the other diagonal.",
    caution="Never work under a car that stands on scales. A cross weight of 50 % is not a safety check.",
    offered=Offered(readings=("corner_weights",), checks=("total", "front", "left", "cross"), again=True),
)
