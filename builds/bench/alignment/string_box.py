"""String box: toe of each wheel, the thrust line, and whether the strings lie parallel to the car."""

from collections.abc import Mapping

from builds.bench.alignment.toe import about_thrust, thrust_angle, toe_angle
from builds.bench.alignment.toe_drawing import toe_drawing
from builds.bench.frame.sums import Answer, Ask, Given, Offered, Sum, SumError, Texts, Worked
from builds.bench.weights.car import TRACKS

CORNERS = (("fl", "Front left"), ("fr", "Front right"), ("rl", "Rear left"), ("rr", "Rear right"))


def _toes(given: Given) -> dict[str, float]:
    toes = {}
    for slug, name in CORNERS:
        try:
            toes[slug] = toe_angle(given[f"{slug}_front"] - given[f"{slug}_rear"], given["across"])
        except ValueError as refusal:
            raise SumError(f"{name}: {refusal}", f"{slug}_front") from None
    return toes


def out_of_parallel(given: Given, side: str) -> float:
    """mm by which a side's string is farther from the front hub than it should be, from hub distances and tracks."""
    front, rear = ((given[f"{end}{side}_front"] + given[f"{end}{side}_rear"]) / 2 for end in "fr")
    return front - rear - (given["track_rear"] - given["track_front"]) / 2


def _yaw(aside: float, wheelbase: float) -> float:
    """Degrees of toe that a string so far out of parallel adds to a wheel of its side. SumError beyond its length."""
    if abs(aside) > wheelbase:
        raise SumError("A string cannot be farther out of parallel than the wheelbase is long.", "wheelbase")
    return toe_angle(aside, wheelbase)


def _work(given: Given, texts: Texts) -> Worked:
    toes = _toes(given)
    thrust = thrust_angle(toes["rl"], toes["rr"])
    parallel = {side: out_of_parallel(given, side) for side in "lr"}
    warnings = tuple(
        f"The {name} string is {abs(parallel[side]):.1f} mm out of parallel: set it again before you believe the toe."
        for side, name in (("l", "left"), ("r", "right"))
        if abs(parallel[side]) > 2 * given["resolves"]
    )
    axles = (("Front", toes["fl"], toes["fr"]), ("Rear", toes["rl"], toes["rr"]))
    answers = (*_of_wheels(given, toes, thrust), *_of_strings(given, parallel))
    return Worked(answers, toe_drawing("Toe of the four wheels", axles, thrust), warnings)


def _of_wheels(given: Given, toes: Mapping[str, float], thrust: float) -> tuple[Answer, ...]:
    """Toe by corner and by axle, where the rear axle points, and the steering wheel; `thrust` in degrees."""
    left, right = about_thrust(toes["fl"], toes["fr"], thrust)
    give = toe_angle(min(given["resolves"], given["across"]), given["across"])
    return (
        *(Answer(slug, name, toes[slug], "°", 2, give) for slug, name in CORNERS),
        Answer("front", "Front, both together", toes["fl"] + toes["fr"], "°", 2, 2 * give),
        Answer("rear", "Rear, both together", toes["rl"] + toes["rr"], "°", 2, 2 * give),
        Answer("thrust", "Thrust line, to the right", thrust, "°", 3, give),
        Answer("left_thrust", "Front left about the thrust line", left, "°", 3),
        Answer("right_thrust", "Front right about the thrust line", right, "°", 3),
        Answer(
            "wheel_now",
            "Driving straight with the front as it is, the steering wheel stands to the right by",
            (right - left) / 2 * given["ratio"],
            "°",
            1,
        ),
        Answer(
            "wheel",
            "Driving straight with the front set evenly about the car's middle, it would stand to the right by",
            thrust * given["ratio"],
            "°",
            1,
        ),
    )


def _of_strings(given: Given, parallel: Mapping[str, float]) -> tuple[Answer, ...]:
    """How far each side's string is out of parallel (mm), and what that does where the wheelbase is given."""
    return (
        *(
            Answer(f"parallel_{side}", f"{name} string out of parallel by", parallel[side], "mm", 1)
            for side, name in (("l", "Left"), ("r", "Right"))
        ),
        *(
            Answer(
                f"yaw_{side}",
                f"Which turns every {name} wheel's toe by",
                _yaw(parallel[side], given["wheelbase"]),
                "°",
                3,
            )
            for side, name in (("l", "left"), ("r", "right"))
            if "wheelbase" in given
        ),
    )


def _edges() -> tuple[Ask, ...]:
    examples = ("152.5", "151", "152", "151", "150.5", "149", "150", "149.5")
    edges = [(slug, name, end) for slug, name in CORNERS for end in ("front", "rear")]
    return tuple(
        Ask(f"{slug}_{end}", f"{name}, string to {end} edge", "mm", example, least=0, most=2_000, group="Strings")
        for (slug, name, end), example in zip(edges, examples, strict=True)
    )


SUM = Sum(
    slug="string-box",
    title="String box",
    question="What do the strings say of each wheel, and which way does the rear axle point?",
    asks=(
        *_edges(),
        Ask("across", "Measured across", "mm", "470", above=100, most=1_500, figure="toe_across"),
        *TRACKS,
        Ask("wheelbase", "Wheelbase", "mm", "2575", least=500, most=10_000, needed=False, figure="wheelbase"),
        Ask("ratio", "Steering ratio, to one", "", "15", above=0, most=40, default="15", figure="steering_ratio"),
        Ask("resolves", "What the rule resolves", "mm", "0.5", above=0, most=10, default="0.5"),
    ),
    work=_work,
    formula=(
        "toe of a wheel = asin[(string to front edge − string to rear edge) / across], toe-in above 0",
        "thrust = (rear left − rear right) / 2, to the right above 0; left − thrust, right + thrust",
        "parallel: front hub − rear hub = (rear track − front track) / 2 on each side",
    ),
    source="ISO 8855:2011 7.1.6; thrust by a maker's workshop manual, (left − right) / 2; another maker turns the sign",
    assumes="Strings outside the wheels at hub height, wheels straight ahead, the car settled and as raced.",
    limits="Half a millimetre at 470 mm is 0.06°. A box that is yawed moves toe from one side to the other.",
    caution="Settle the car, pressures set, rack centred and locked. Tighten the jam nuts and read it again.",
    offered=Offered(readings=("toe_front", "toe_rear"), systems=("suspension",), checks=("front", "rear", "thrust")),
)
