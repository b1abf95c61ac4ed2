"""Bump steer: toe, camber and caster over travel, from hard points, and the height that makes it zero."""

from collections.abc import Callable, Iterable, Mapping

from builds.bench.frame.chart import chart
from builds.bench.frame.drawing import Drawing, Label, Line, Ring
from builds.bench.frame.lines import named_figures
from builds.bench.frame.sums import Answer, Ask, Column, Given, Offered, Sum, SumError, Table, Texts, Worked
from builds.bench.suspension.bump import Corner, WheelPose, inner_height_without_slope
from builds.bench.suspension.hard_points import SHARED, STRUT, WISHBONE, points_of
from builds.bench.suspension.space import ApartError, Vector
from garage.engine.said import said
from garage.engine.units import QuantityError

STEPS = 8
# Degrees for 25 mm of travel. Common practice, no source.
ENOUGH = 0.1
SLACK = 1.0  # mm by which a measured link may differ


def corner_of(points: Mapping[str, Vector], given: Given) -> Corner:
    """A double wishbone or a strut, as its points say."""
    is_strut = "strut top" in points
    return Corner(
        lower=(points["lower front"], points["lower rear"], points["lower joint"]),
        rod=(points["rod inner"], points["rod outer"]),
        wheel=points["wheel"],
        upper=None if is_strut else (points["upper front"], points["upper rear"], points["upper joint"]),
        strut=(points["strut top"], points["strut low"]) if is_strut else None,
        toe=given["toe"],
        camber=given["camber"],
    )


def swept(corner: Corner, travel: float, more: Iterable[float] = ()) -> list[WheelPose]:
    """Both ways in steps, and at `more` travels (mm). SumError where the links do not reach."""
    travels = sorted({travel * step / STEPS for step in range(-STEPS, STEPS + 1)} | set(more))
    try:
        return corner.sweep(travels)
    except ApartError:
        raise SumError(
            "The links do not reach each other that far: look through the points, or ask less.", "travel"
        ) from None


def _read_by_hand(text: str, most: float) -> dict[float, float]:
    """Toe that was read with a gauge, by travel: lines such as `25 -0.05`, what it changed from ride height."""
    toes = {}
    for name, toe in named_figures(text, "°", "read"):
        try:
            travel = float(said(name, "mm", "mm"))
        except QuantityError:
            raise SumError(
                f"“{name[:40]}” is no travel: write mm of bump and the toe read, such as 25 -0.05.", "read"
            ) from None
        if abs(travel) > most:
            raise SumError(f"{travel:g} mm is beyond the travel asked for.", "read")
        toes[travel] = toe
    return toes


def _table(poses: list[WheelPose], after: list[WheelPose], read: Mapping[float, float]) -> Table:
    """Over the travel, as it is and with the shims; what was read beside it."""
    columns = (
        Column("Bump", "mm", 0),
        Column("Toe-in", "°", 3),
        Column("Camber", "°", 2),
        Column("Caster", "°", 2),
        Column("With shims", "°", 3),
        *((Column("Read", "°", 3), Column("More than worked out", "°", 3)) if read else ()),
    )
    rows = tuple(
        (pose.travel, pose.toe, pose.camber, pose.caster, other.toe, *_beside(pose, read))
        for pose, other in zip(poses, after, strict=True)
    )
    return Table("Over the travel; toe-in above 0, camber with the top in below 0", columns, rows)


def _beside(pose: WheelPose, read: Mapping[float, float]) -> tuple[float | str, ...]:
    if not read:
        return ()
    toe = read.get(pose.travel)
    return ("", "") if toe is None else (toe, toe - pose.toe)


def _work_with(wanted: tuple[str, ...], given: Given, texts: Texts) -> Worked:
    corner = corner_of(points_of(texts["points"], wanted), given)
    read = _read_by_hand(texts.get("read", ""), given["travel"])
    poses = swept(corner, given["travel"], read)
    still, slope = corner.pose(0)[0], corner.slope()
    shimmed = corner.shimmed(*((given[f"{end}_out"], given[f"shim_{end}"]) for end in ("inner", "outer")))
    after = swept(shimmed, given["travel"], read)
    raised = inner_height_without_slope(corner)
    worst = max(abs(pose.toe - corner.toe) for pose in poses)
    answers = (
        Answer("slope", "Toe-in a mm of bump, at ride height, degrees", slope, "", 4),
        Answer("per_25", "For 25 mm of bump", 25 * slope, "°", 3),
        Answer("worst", "Largest change over this travel", worst, "°", 3),
        Answer(
            "raise",
            "Inner joint higher by, for no bump steer at ride height",
            raised,
            "mm",
            2,
            words="" if raised is not None else "not found within 100 mm",
        ),
        Answer(
            "height",
            "That is at a height of",
            None if raised is None else corner.rod[0][2] + raised,
            "mm",
            2,
            words="" if raised is not None else "not found",
        ),
        Answer("shimmed", "With these shims, for 25 mm of bump", 25 * shimmed.slope(), "°", 3),
        Answer("caster", "Caster, top rearward above 0", still.caster, "°", 2),
        Answer("inclination", "Inclination of the steering axis", still.inclination, "°", 2),
        *(Answer(name.replace(" ", "_"), f"Length, {name}", size, "mm", 1) for name, size in corner.lengths().items()),
    )
    return Worked(
        answers,
        _from_behind(corner),
        _warnings(corner, slope, texts.get("measured", "")),
        _table(poses, after, read),
        (_over_travel(poses, after),),
    )


def _over_travel(poses: list[WheelPose], after: list[WheelPose]) -> Drawing:
    return chart(
        "Toe over travel",
        f"From {poses[0].toe:+.2f}° in droop to {poses[-1].toe:+.2f}° in bump, toe-in above 0.",
        [
            ("now", [(pose.travel, pose.toe) for pose in poses]),
            ("shimmed", [(pose.travel, pose.toe) for pose in after]),
        ],
        across="mm of bump",
        up="toe-in, °",
    )


def _warnings(corner: Corner, slope: float, measured: str) -> tuple[str, ...]:
    told = []
    if abs(25 * slope) > ENOUGH:
        told.append(f"{abs(25 * slope):.2f}° for 25 mm is more than the {ENOUGH:g}° that is commonly aimed at.")
    known = corner.lengths()
    for name, size in named_figures(measured, "mm", "measured"):
        if name.lower() not in known:
            raise SumError(f"“{name[:40]}” is no link of this: write {', '.join(known)}.", "measured")
        if abs(size - known[name.lower()]) > SLACK:
            told.append(f"The {name} measures {size:.1f} mm, its points say {known[name.lower()]:.1f}: measure again.")
    return tuple(told)


def _from_behind(corner: Corner) -> Drawing:
    """The left corner from behind, the car's middle at the right."""

    def at(point: Vector) -> tuple[float, float]:
        return -point[1], -point[2]

    radius = corner.wheel[2]
    shapes: list[Line | Ring | Label] = [
        Line((at(corner.lower[0]), at(corner.lower[2])), "strong"),
        Line((at(corner.lower[2]), at(corner.above)), "thin"),
        Line((at(corner.rod[0]), at(corner.rod[1])), "part"),
        Line(((-corner.wheel[1], 0), (-corner.wheel[1], -2 * radius)), "strong"),
        Line(((-corner.wheel[1] - 60, 0), (-corner.rod[0][1] + 60, 0)), "thin"),
        *(Ring(at(point), 6) for point in (*corner.lower, corner.above, *corner.rod)),
    ]
    if corner.upper:
        shapes.append(Line((at(corner.upper[0]), at(corner.upper[2])), "strong"))
    words = "The left corner from behind: arms bold, tie rod between them, the wheel at the left."
    return Drawing("The corner as it stands", words, tuple(shapes))


def wishbone(given: Given, texts: Texts) -> Worked:
    return _work_with((*WISHBONE, *SHARED), given, texts)


def strut(given: Given, texts: Texts) -> Worked:
    return _work_with((*STRUT, *SHARED), given, texts)


_POINTS_NOTE = "One a line, or pasted from a spreadsheet: name, x forward, y to the left, z up. "
_WISHBONE_EXAMPLE = """lower front 170 340 185
lower rear -150 330 195
lower joint 8 705 165
upper front 110 410 445
upper rear -130 400 435
upper joint -18 665 455
rod inner -115 345 225
rod outer -125 690 210
wheel 0 752 300"""
_STRUT_EXAMPLE = """lower front 160 330 180
lower rear -160 330 180
lower joint 0 700 170
strut top -20 600 780
strut low -5 690 300
rod inner -120 340 215
rod outer -130 690 205
wheel 0 752 300"""


def _asks(wanted: tuple[str, ...], example: str, figure: str) -> tuple[Ask, ...]:
    names = ", ".join((*wanted, *SHARED))
    return (
        Ask("points", "Hard points", lines=True, example=example, note=f"{_POINTS_NOTE}Names: {names}.", figure=figure),
        Ask("travel", "Travel each way", "mm", "60", above=0, most=200),
        Ask("toe", "Toe-in as it stands", "°", "0", least=-10, most=10, default="0"),
        Ask("camber", "Camber as it stands", "°", "0", least=-20, most=20, default="0"),
        Ask("shim_inner", "Inner joint higher by", "mm", "2", least=-100, most=100, default="0", group="Shims"),
        Ask("inner_out", "Inner joint farther out by", "mm", least=-100, most=100, default="0", group="Shims"),
        Ask("shim_outer", "Outer joint higher by", "mm", "0", least=-100, most=100, default="0", group="Shims"),
        Ask("outer_out", "Outer joint farther out by", "mm", least=-100, most=100, default="0", group="Shims"),
        Ask(
            "read",
            "Toe as read with a gauge",
            lines=True,
            needed=False,
            note="Such as 25 -0.05: mm of bump, then toe-in against ride height, one a line.",
            group="Check",
        ),
        Ask(
            "measured",
            "Links as measured",
            lines=True,
            needed=False,
            note="Such as tie rod 345.5, one a line.",
            group="Check",
        ),
    )


def _sum(slug: str, title: str, asks: tuple[Ask, ...], work: Callable[[Given, Texts], Worked]) -> Sum:
    return Sum(
        slug=slug,
        title=title,
        question="How does toe change over travel, and what makes it stay?",
        asks=asks,
        work=work,
        formula=(
            "the lower joint turns about the lower axis, links keep their lengths, the wheel rises by the travel",
            "toe-in = atan(sx / sy), camber = −asin(sz), s along the axle outboard",
        ),
        source="Constraint equations, Kodati & Bandyopadhyay, INaCoMM 2013; Dixon (from memory)",
        assumes="A left wheel; a right one (y below 0) is mirrored. Rack locked at its middle, links without play.",
        limits="A measured curve has bushes and rack in it. Travel is the wheel's. The aim of 0.1° is common practice.",
        caution="Bump-steer spacers bend arm and stud: the right taper, locked; look at rod ends in droop and at lock.",
        offered=Offered(
            readings=("bump_steer",), systems=("suspension", "steering"), checks=("per_25", "raise", "shimmed")
        ),
    )


WISHBONE_SUM = _sum(
    "bump-steer-wishbone",
    "Bump steer, double wishbone",
    _asks(WISHBONE, _WISHBONE_EXAMPLE, "points_wishbone"),
    wishbone,
)
STRUT_SUM = _sum("bump-steer-strut", "Bump steer, strut", _asks(STRUT, _STRUT_EXAMPLE, "points_strut"), strut)
