"""Perch turns: what a perch does to the four loads, and the turns that give a wanted cross weight."""

from builds.bench.frame.drawing import Drawing
from builds.bench.frame.say import number_said
from builds.bench.frame.sums import Answer, Ask, Given, Offered, Sum, SumError, Texts, Worked
from builds.bench.weights.car import LEFT_RIGHT, WHEELS, plan_view
from builds.bench.weights.corner_weights import Corners
from builds.bench.weights.springs_model import GRAVITY, SpringChange, Stance, Vector, four, perches_for, respond
from builds.bench.weights.stance import BARS, LOADS, RATES, SIZE, answers_after, loads_after, loads_of, stance_of

ALL = "all"
LONGEST = 100.0
"""mm: a perch has no more thread than this. Common practice, no source."""
CHOICES = (*((slug, label) for slug, label, _ in LEFT_RIGHT), (ALL, "All four, heights kept"))


def one_perch(stance: Stance, wheel: int, diagonal: float) -> Vector:
    """The perch of one wheel (mm at the wheel) that gives front right and rear left `diagonal` N more together."""
    unit = four([float(other == wheel) for other in range(4)])
    gained = respond(stance, perches=unit).loads
    moved = gained[1] + gained[2]
    if abs(moved) < 1e-12:
        raise SumError("A bar this stiff lets no perch move the cross: unhook it.", "bar_front")
    return four([step * diagonal / moved for step in unit])


def turns_of(perches: Vector, given: Given) -> Vector:
    """Turns of each perch, more preload above 0: a whole turn is pitch / motion ratio at the wheel."""
    ratios = (given["ratio_front"],) * 2 + (given["ratio_rear"],) * 2
    return four([perch * ratio / given["pitch"] for perch, ratio in zip(perches, ratios, strict=True)])


def turns_said(turns: float) -> str:
    """Turns to a tenth with their way: `1.0 turn down`; down is more preload."""
    tenths = abs(round(turns, 1))
    if tenths == 0:
        return "leave it"
    return f"{tenths:.1f} {'turn' if tenths == 1 else 'turns'} {'down' if turns > 0 else 'up'}"


def _work(given: Given, texts: Texts) -> Worked:
    stance, corners = stance_of(given), loads_of(given)
    diagonal = (given["cross"] - corners.cross) / 100 * corners.total * GRAVITY
    which = texts["perch"]
    perches = perches_for(stance, diagonal) if which == ALL else one_perch(stance, WHEELS.index(which), diagonal)
    turns = turns_of(perches, given)
    change = respond(stance, perches=perches)
    after = loads_after(corners, change)
    if min(after.fl, after.fr, after.rl, after.rr) <= 0:
        raise SumError("A wheel would hang in the air: this car cannot stand on that cross.", "cross")
    most = max(map(abs, turns))
    if most * given["pitch"] > LONGEST:
        raise SumError(
            f"That is {most:.0f} turns of a perch, {most * given['pitch']:.0f} mm of thread: no perch has as much. "
            "Look at the loads and the cross wanted again.",
            "cross",
        )
    answers = (
        *(
            Answer(f"{slug}_turns", f"{label} perch, turns, down above 0", turn, "", 2, words=turns_said(turn))
            for (slug, label, _), turn in zip(LEFT_RIGHT, turns, strict=True)
            if which in (ALL, slug)
        ),
        *(
            Answer(f"{slug}_perch", f"{label} perch, at the wheel, down above 0", perch, "mm", 2)
            for (slug, label, _), perch in zip(LEFT_RIGHT, perches, strict=True)
            if which in (ALL, slug)
        ),
        *answers_after(corners, change),
        Answer("per_turn", "Cross moved by a turn of a front perch", _per_turn(stance, corners, given), "%", 2),
    )
    warnings = ("With a bar hooked up a perch moves less than it will once it is off: weigh with bars unhooked.",)
    return Worked(answers, _drawing(given, corners, change), warnings if any(stance.bars) else ())


def _per_turn(stance: Stance, corners: Corners, given: Given) -> float:
    step = given["pitch"] / given["ratio_front"]
    loads = respond(stance, perches=(0, step, 0, 0)).loads
    return 100 * (loads[1] + loads[2]) / GRAVITY / corners.total


def _drawing(given: Given, corners: Corners, change: SpringChange) -> Drawing:
    after = loads_after(corners, change)
    loads = dict(zip(WHEELS, (after.fl, after.fr, after.rl, after.rr), strict=True))
    words = (
        f"The car from above after the turns, its front at the top; cross {number_said(after.cross, '%', 'metric', 1)}."
    )
    shapes = plan_view(given["wheelbase"], given["track_front"], given["track_rear"], loads)
    return Drawing("Corner weights after the turns", words, shapes)


SUM = Sum(
    slug="perch-turns",
    title="Perch turns",
    question="How far are the perches to be turned for the cross weight wanted?",
    asks=(
        *LOADS,
        Ask("cross", "Cross wanted, front right and rear left", "%", "50", above=20, most=80),
        Ask("perch", "Turn", choices=CHOICES, default=ALL),
        *SIZE,
        *RATES,
        *BARS,
        Ask("pitch", "Thread pitch of the perch", "mm", "2", above=0, most=10, group="Springs", figure="perch_pitch"),
        *(
            Ask(
                f"ratio_{end}",
                f"Motion ratio, {end}",
                "",
                example,
                above=0,
                most=2,
                default="1",
                group="Springs",
                figure=f"motion_ratio_{end}",
            )
            for end, example in (("front", "0.9"), ("rear", "0.9"))
        ),
    ),
    work=_work,
    formula=(
        "perch alone: loads change by λ n, n = (1/tf, −1/tf, −1/tr, 1/tr), λ = n·p / Σ n²/k",
        "heights kept: p = λ n / k at each wheel",
        "at the wheel p = turns × pitch / motion ratio, motion ratio = spring travel / wheel travel",
    ),
    source="Own derivation: four springs under a rigid car, in balance",
    assumes="Level floor, bars unhooked, driver and fuel as raced, the car rolled to settle after each turn.",
    limits="A stiff chassis and straight springs. Down is more preload. Turn, roll, and weigh again.",
    caution="Never work under a car that stands on scales. A perch turn moves height, camber and toe: read them after.",
    offered=Offered(
        readings=("corner_weights",),
        kinds=("spring_change",),
        systems=("suspension",),
        checks=("fl_turns", "fr_turns", "rl_turns", "rr_turns", "cross_after"),
        again=True,
    ),
)
