"""Steering change: arm, rack and tie rods as they are and as they would be, side by side."""

import math
from dataclasses import dataclass

from builds.bench.frame.chart import chart
from builds.bench.frame.drawing import Drawing
from builds.bench.frame.sums import Answer, Column, Given, Offered, Sum, SumError, Table, Texts, Worked
from builds.bench.steering.asks import linkage_of
from builds.bench.steering.change_asks import CHANGE_ASKS, JOINT, WANTED
from builds.bench.steering.linkage import LEFT, RIGHT, Linkage, overall_ratio, rack_force, rim_force
from builds.bench.steering.plan_view import plan_view
from builds.bench.steering.steering_linkage import full_lock, margin_warning

# Degrees by which left and right lock may differ unsaid. Common practice, no source.
UNEVEN = 1.0


@dataclass(frozen=True)
class Steering:
    """A linkage with its rack: `travel` mm each way, `per_turn` mm a turn, `moment` N·m a king-pin, `rim` mm.

    `left` and `right` are degrees of the inner and of the outer wheel at full lock that way.
    """

    linkage: Linkage
    travel: float
    per_turn: float
    moment: float
    rim: float
    left: tuple[float, float]
    right: tuple[float, float]

    @property
    def ends(self) -> tuple[float, float]:
        """mm that the rack has moved to the left at full left and at full right lock."""
        left, right = (self.linkage.towards(way) * stroke(self.linkage, self.travel, way) for way in (LEFT, RIGHT))
        return left, right

    @property
    def inner(self) -> float:
        return self.left[0]

    @property
    def margin(self) -> float:
        """Degrees from over centre, at the worse lock."""
        return min(self.linkage.margin(end) for end in self.ends)

    @property
    def toggle(self) -> float:
        """mm of rack at which it is over centre, the nearer way."""
        return min(self.linkage.toggle(way) for way in (LEFT, RIGHT))

    def gains(self, moved: float) -> tuple[float, float]:
        return self.linkage.gain(LEFT, moved), self.linkage.gain(RIGHT, moved)

    @property
    def ratio(self) -> float:
        return overall_ratio(sum(self.gains(0)) / 2, self.per_turn)

    def rim_at(self, moved: float) -> float:
        """N at the rim with the rack moved that far."""
        return rim_force(rack_force(self.moment, self.gains(moved)), self.per_turn, self.rim)

    @property
    def rim_lock(self) -> float:
        """N at the rim, at the heavier lock."""
        return max(self.rim_at(end) for end in self.ends)


def stroke(linkage: Linkage, travel: float, way: int) -> float:
    """mm of rack that turn the wheels that way: less towards the side to which it lies of its middle."""
    return travel - linkage.towards(way) * linkage.aside


def steering_of(linkage: Linkage, travel: float, given: Given) -> Steering:
    """SumError where it locks over centre before the rack's end, or the rack lies beyond that."""
    if abs(linkage.aside) >= travel:
        raise SumError("It lies beyond the end of its travel.", "aside")
    left, right = (full_lock(linkage, stroke(linkage, travel, way), way) for way in (LEFT, RIGHT))
    return Steering(linkage, travel, given["per_turn"], given["moment"], given["rim"], left, right)


def changed(given: Given, texts: Texts) -> tuple[Linkage, float]:
    """Linkage and travel with all that is wanted done.

    A spacer moves each inner joint outboard by its thickness, and gives as much travel where that joint is the stop.
    """
    spacer = given["spacer"]
    linkage = linkage_of(
        given,
        texts,
        arm=given.get("new_arm", given["arm"]),
        arm_in=given.get("new_arm_in", given["arm_in"]),
        rack=given.get("new_rack", given["rack"]),
        inner=given["inner"] + 2 * spacer,
        aside=given["aside"],
        longer=given["longer"],
    )
    return linkage, given["travel"] + (spacer if texts["stopped_by"] == JOINT else 0)


def rules_of_thumb(before: Steering, after: Steering, spacer: float) -> list[str]:
    """Those that this car agrees with. Common practice, no source."""
    said = []
    more = after.inner - before.inner
    alone = before.linkage.arm == after.linkage.arm and before.linkage.arm_in == after.linkage.arm_in
    if alone and 5 <= spacer <= 10 and 5 <= more <= 10:
        said.append("5 to 10 mm more rack travel is worth 5 to 10°")
    # the moments are the same, so that effort grows as the ratio falls
    twice = all(1.8 <= times <= 2.2 for times in (after.inner / before.inner, before.ratio / after.ratio))
    if before.travel == after.travel and twice:
        said.append("twice the angle for the same travel is half the ratio and twice the effort")
    if after.linkage.arm < before.linkage.arm and 22 <= before.inner <= 28 and after.inner >= 45:
        said.append("moving the joint inward turns 25° into 45° and more")
    return said


def _work(given: Given, texts: Texts) -> Worked:
    now, travel = linkage_of(given, texts), given["travel"]
    wanted = changed(given, texts)
    if wanted == (now, travel):
        raise SumError("Say what is to be changed: so far nothing is.", "new_arm")
    before = steering_of(now, travel, given)
    try:
        after = steering_of(*wanted, given)
    except SumError as refusal:
        raise SumError(f"Afterwards: {refusal}", refusal.asked) from None
    return Worked(
        tuple(_answers(before, after, given)),
        plan_view(after.linkage, after.ends[0], "Full left, afterwards"),
        tuple(_warnings(after, given)),
        _table(before, _alone(given, texts), after),
        (plan_view(now, before.ends[0], "Full left, now"), _over_travel(before, after)),
    )


def _answers(before: Steering, after: Steering, given: Given) -> list[Answer]:
    rods = {side: after.linkage.rods[side] - before.linkage.rods[side] for side in (LEFT, RIGHT)}
    no_moment = "" if before.moment else "not known without a moment"
    thumbs = rules_of_thumb(before, after, given["spacer"])
    answers = [
        Answer("inner", "Left lock, inner wheel, afterwards", after.inner, "°", 1),
        Answer("more", "Lock gained, inner wheel", after.inner - before.inner, "°", 1),
        Answer("margin", "Margin to over centre afterwards, at the worse lock", after.margin, "°", 1),
        Answer(
            "effort",
            "Effort straight ahead, more by",
            _more(before.rim_at(0), after.rim_at(0)),
            "%",
            1,
            words=no_moment,
        ),
        Answer(
            "effort_lock",
            "Effort at full lock, more by",
            _more(before.rim_lock, after.rim_lock),
            "%",
            1,
            words=no_moment,
        ),
        Answer("ratio", "Ratio straight ahead afterwards, to one", after.ratio, "", 1),
        Answer("travel", "Rack travel each way afterwards", after.travel, "mm", 1),
        Answer("rod_left", "Left tie rod becomes longer by", rods[LEFT], "mm", 1),
        Answer("rod_right", "Right tie rod becomes longer by", rods[RIGHT], "mm", 1),
    ]
    if (left := thread_left(given)) is not None:
        answers.append(Answer("thread", "Thread engaged in the rack's end afterwards", left, "mm", 1))
    words = "; ".join(thumbs) or "none of the three"
    return [*answers, Answer("thumbs", "Rules of thumb that this car agrees with", None, words=words)]


def thread_left(given: Given) -> float | None:
    """mm of thread in the rack's end that a spacer leaves; None where nobody measured it."""
    return None if (engaged := given.get("engaged")) is None else max(0.0, engaged - given["spacer"])


def _more(before: float, after: float) -> float | None:
    return 100 * (after / before - 1) if before else None


def _warnings(after: Steering, given: Given) -> list[str]:
    said = list(margin_warning(after.margin))
    left = thread_left(given)
    if given["spacer"] and left is None:
        said.append("A spacer eats thread in the rack's end: measure what is engaged.")
    elif left is not None and left < given["across"]:
        said.append(
            f"{left:.1f} mm of thread is left in the rack's end, less than its {given['across']:.1f} mm across."
        )
    if (apart := abs(after.left[0] - after.right[0])) > UNEVEN:
        said.append(f"Left and right lock differ by {apart:.1f}°.")
    return said


# What can be changed, by what is asked of it, and what each alone is called.
_CHANGES = (
    ("new_arm", "Arm's length alone"),
    ("new_arm_in", "Arm turned, alone"),
    ("new_rack", "Rack moved, alone"),
    ("spacer", "Spacers alone"),
    ("aside", "Rack off its middle, alone"),
    ("longer", "Longer tie rods, alone"),
)

# What leaves it as it is; of the others it is nothing at all, since 0 is a place of its own.
_AS_NOW = {"spacer": 0.0, "aside": 0.0, "longer": 0.0}


def _alone(given: Given, texts: Texts) -> list[tuple[str, Steering | None]]:
    """Each change by itself where several are wanted, None where it locks over centre."""
    wanted = [(slug, name) for slug, name in _CHANGES if given.get(slug, _AS_NOW.get(slug)) != _AS_NOW.get(slug)]
    if len(wanted) < 2:
        return []
    others = {slug for slug, _ in _CHANGES}
    still = {slug: size for slug, size in given.items() if slug not in others} | _AS_NOW
    return [(name, _if_it_turns(still | {slug: given[slug]}, texts)) for slug, name in wanted]


def _if_it_turns(given: Given, texts: Texts) -> Steering | None:
    try:
        return steering_of(*changed(given, texts), given)
    except SumError:
        return None


def _table(before: Steering, alone: list[tuple[str, Steering | None]], after: Steering) -> Table:
    columns = (
        Column(""),
        *(Column(f"{way} lock, {wheel}", "°") for way in ("Left", "Right") for wheel in ("inner", "outer")),
        Column("Margin", "°"),
        Column("Over centre at", "mm"),
        Column("Ratio"),
        Column("Rim, ahead", "N", 0),
        Column("Rim, full lock", "N", 0),
    )
    lines = [("Now", before), *alone, (WANTED, after)]
    return Table("Side by side", columns, tuple((name, *_cells(one)) for name, one in lines))


def _cells(one: Steering | None) -> tuple[float | str, ...]:
    if one is None:
        return ("locks over centre", *[""] * 8)
    toggle = one.toggle if math.isfinite(one.toggle) else "never"
    return *one.left, *one.right, one.margin, toggle, one.ratio, one.rim_at(0), one.rim_lock


def _over_travel(before: Steering, after: Steering) -> Drawing:
    """The inner wheel over the travel of the rack, left lock, as it is and afterwards."""
    curves = []
    for name, one in (("now", before), ("afterwards", after)):
        steps = [stroke(one.linkage, one.travel, LEFT) * part / 20 for part in range(21)]
        curves.append((name, [(step, one.linkage.turned(LEFT, step)[0]) for step in steps]))
    words = f"Left lock: now up to {before.inner:.1f}°, afterwards up to {after.inner:.1f}° of the inner wheel."
    return chart("Inner wheel over rack travel", words, curves, across="mm of rack", up="°")


SUM = Sum(
    slug="steering-change",
    title="Steering changed, side by side",
    question="What do a shorter arm, a rack spacer or longer tie rods give, and what do they cost?",
    asks=CHANGE_ASKS,
    work=_work,
    formula=(
        "both linkages solved exactly, each way; margin and ratio as in the sum of the steering linkage",
        "spacer: inner joints outboard by it on each side, travel more by it where the inner joint is the stop",
        "effort ∝ sum of the moments × degrees a mm of rack",
    ),
    source="Plane linkage solved exactly; Norton, Design of Machinery (from memory); rules of thumb: common practice",
    assumes="Wheels set straight ahead again afterwards, unless the tie rods are to be longer; joints without play.",
    limits="Plan view only: king-pin inclination, caster and bump change real angles by degrees at high lock.",
    caution="Steering that is over centre does not steer back. Fit lock stops, check at full lock in bump and droop, "
    "count the threads engaged. This is an estimate, not approval of changed steering parts.",
    offered=Offered(
        readings=("lock_angles", "toggle_check", "lock_clearance"),
        kinds=("steering_arm", "rack_spacer", "rack_moved"),
        systems=("steering",),
        checks=("inner", "margin", "rod_left", "rod_right", "thread"),
    ),
)
