"""Steering linkage: lock angles, Ackermann, the margin to over-centre, ratio and effort."""

import math

from builds.bench.frame.say import number_said
from builds.bench.frame.sums import Answer, Ask, Given, MeasuredAnswer, Offered, Sum, SumError, Texts, Worked
from builds.bench.steering.asks import ASKS, EFFORT, TRAVEL, linkage_of
from builds.bench.steering.linkage import (
    LEFT,
    RIGHT,
    Linkage,
    OverCentreError,
    ackermann_by_angle,
    ackermann_by_cotangent,
    against_ackermann,
    ideal_outer,
    overall_ratio,
    rack_force,
    rim_force,
    turning_radius,
)
from builds.bench.steering.plan_view import over_travel, plan_view

# Degrees of margin: common practice in drifting, no source.
WARN, STOP = 30.0, 20.0
# Degrees of the inner wheel below which a share of Ackermann is nothing over nothing.
LEAST_FOR_ACKERMANN = 5.0
# Degrees by which a plane sum and turn plates may differ: inclination and caster take some. Common practice, no source.
LOCK_WITHIN = 3.0
MEASURED = "If they were measured"
# slug, what it is called on the car, what stops the lock there
_STOPS = (
    ("stop", "at the lock stop", "the lock stop"),
    ("tyre", "at which a tyre touches", "the tyre"),
    ("joint", "at which a joint binds", "a joint"),
    ("touch", "at which an arm or a tie rod touches", "an arm or a tie rod"),
)
SLIDER = Ask(
    "at", "Drawn at this much of full lock; below 0 to the right", "%", least=-100, most=100, default="0", slider=True
)
STOPS = tuple(
    Ask(slug, f"Inner wheel {where}", "°", above=0, most=90, needed=False, group=MEASURED, figure=f"lock_{slug}")
    for slug, where, _ in _STOPS
)


def full_lock(linkage: Linkage, travel: float, way: int = LEFT) -> tuple[float, float]:
    """Inner and outer wheel at the end of the rack. SumError where it cannot get there, or turns the other way."""
    try:
        inner, outer = linkage.turned(way, travel)
    except OverCentreError:
        at = linkage.toggle(way)
        if not math.isfinite(at):
            raise SumError("It is over centre straight ahead: look through arms, rack and joints.", "arm") from None
        raise SumError(
            f"It locks over centre at {number_said(at, 'mm', 'metric', 1)} of rack travel, before the rack's end: "
            "a lock stop must act well before that, or the arm must be longer.",
            "travel",
        ) from None
    if inner <= 0 or outer <= 0:
        raise SumError("A wheel would turn against the rack: look through arms, rack and joints.", "arm")
    return inner, outer


def margin_warning(margin: float) -> tuple[str, ...]:
    """What is said loudly of a margin (degrees) to over centre."""
    if margin < STOP:
        return (f"Stop: {margin:.0f}° from over centre. Do not drive it: shorten the travel or fit lock stops.",)
    if margin < WARN:
        return (f"{margin:.0f}° from over centre is little: worn joints and a bent arm take from it.",)
    return ()


def what_limits(linkage: Linkage, given: Given) -> str:
    """Which of rack, lock stop, tyre, joint and arm comes first; over centre stops nothing, it breaks."""
    inner, _ = full_lock(linkage, given["travel"])
    known = {"the rack": inner} | {name: given[slug] for slug, _, name in _STOPS if slug in given}
    first = min(known, key=lambda name: known[name])
    return f"{first}, at {known[first]:.1f}° of the inner wheel"


def _work(given: Given, texts: Texts) -> Worked:
    linkage, travel = linkage_of(given, texts), given["travel"]
    size = given["kingpins"], given["wheelbase"]
    inner, outer = full_lock(linkage, travel)
    moved = linkage.towards(LEFT) * travel
    margin = linkage.margin(moved)
    toggle = linkage.toggle(LEFT)
    answers = (
        Answer("inner", "Inner wheel at full rack", inner, "°", 1),
        Answer("outer", "Outer wheel at full rack", outer, "°", 1),
        Answer("ideal", "Outer wheel by Ackermann", ideal_outer(inner, *size), "°", 1),
        *_ackermann(inner, outer, size),
        Answer("radius", "Middle of the rear axle turns on a radius of", turning_radius(inner, *size) / 1000, "m", 2),
        Answer("limit", "Lock is limited by", None, words=what_limits(linkage, given)),
        Answer("margin", "Margin to over centre at full rack", margin, "°", 1),
        Answer("mu_inner", "Arm to tie rod, inner wheel", linkage.transmission(LEFT, moved), "°", 1),
        Answer("mu_outer", "Arm to tie rod, outer wheel", linkage.transmission(RIGHT, moved), "°", 1),
        Answer(
            "toggle",
            "Over centre at a rack travel of",
            toggle if math.isfinite(toggle) else None,
            "mm",
            1,
            words="" if math.isfinite(toggle) else "never",
        ),
        *(
            Answer(
                f"travel_{degrees}", f"Rack travel at a margin of {degrees}°", at, "mm", 1, words="" if at else "none"
            )
            for degrees in (40, 30, 20)
            for at in (linkage.travel_at_margin(LEFT, degrees),)
        ),
        *effort_answers(linkage, given, moved),
    )
    frames = (plan_view(linkage, moved, "Full left"), plan_view(linkage, -moved, "Full right"))
    return Worked(
        answers,
        plan_view(linkage, moved * given["at"] / 100, _where(given["at"])),
        (*margin_warning(margin), *(against_ackermann(inner, outer, *size) if inner >= LEAST_FOR_ACKERMANN else ())),
        more_drawings=(*frames, over_travel(linkage, travel)),
    )


def _where(share: float) -> str:
    """What the drawing is called with the rack at that share of its travel, to the left above 0."""
    return f"{abs(share):.0f} % of lock to the {'left' if share > 0 else 'right'}" if share else "Straight ahead"


def _ackermann(inner: float, outer: float, size: tuple[float, float]) -> tuple[Answer, ...]:
    if inner < LEAST_FOR_ACKERMANN:
        return (Answer("ackermann", "Ackermann", None, words="not worked out below 5° of the inner wheel"),)
    return (
        Answer("ackermann", "Ackermann, by angles", ackermann_by_angle(inner, outer, *size), "%", 0),
        Answer("ackermann_cot", "Ackermann, by cotangents", ackermann_by_cotangent(inner, outer, *size), "%", 0),
    )


def effort_answers(linkage: Linkage, given: Given, moved: float) -> tuple[Answer, ...]:
    """Gain, ratio and what the hands feel, straight ahead and with the rack moved that far."""
    per_turn, moment, rim = given["per_turn"], given["moment"], given["rim"]
    said = []
    for slug, where, at in (("centre", "straight ahead", 0.0), ("lock", "at full rack", moved)):
        gains = linkage.gain(LEFT, at), linkage.gain(RIGHT, at)
        force = rack_force(moment, gains)
        ratio = overall_ratio(sum(gains) / 2, per_turn)
        said += [
            Answer(f"gain_{slug}", f"Wheels, {where}, degrees a mm of rack", math.degrees(sum(gains) / 2), "", 3),
            Answer(f"ratio_{slug}", f"Ratio {where}, to one", ratio, "", 1),
            Answer(f"rack_{slug}", f"Force along the rack {where}", force, "N", 0),
            Answer(f"rim_{slug}", f"Force at the rim {where}", rim_force(force, per_turn, rim), "N", 0),
        ]
    return tuple(said)


SUM = Sum(
    slug="steering-linkage",
    title="Steering linkage",
    question="How much lock does it give, and how far is it from over centre?",
    asks=(*ASKS, TRAVEL, *EFFORT, SLIDER, *STOPS),
    work=_work,
    formula=(
        "arm's direction = that to the inner joint ± acos[(arm² + D² − rod²) / (2 arm D)], D from axis to joint",
        "cos μ = (arm² + rod² − D²) / (2 arm rod); margin = least of μ and 180° − μ; over centre at D = arm + rod",
        "degrees a mm = cos(rod to rack) / (arm sin μ); ratio = 360° / (travel a turn × degrees a mm)",
        "Ackermann by angles = (inner − outer) / (inner − ideal outer)",
        "ideal: cot outer − cot inner = king-pins / wheelbase",
    ),
    source="Plane linkage solved exactly; ISO 8855:2011 7.1.9; Norton, Design of Machinery (from memory)",
    assumes="Both sides alike, rack centred, wheels set straight ahead; joints without play.",
    limits="Plan view only: king-pin inclination, caster and bump change real angles by degrees at high lock.",
    caution="Steering that is over centre does not steer back. Fit lock stops, check at full lock in bump and droop, "
    "count the threads engaged. This is an estimate, not approval of changed steering parts.",
    offered=Offered(
        readings=("lock_angles", "toggle_check", "ackermann", "lock_clearance"),
        kinds=(),
        systems=("steering",),
        checks=("inner", "outer", "margin", "limit"),
        measured=(
            MeasuredAnswer("inner", "lock_angles", ("left_inner", "right_inner"), LOCK_WITHIN),
            MeasuredAnswer("outer", "lock_angles", ("left_outer", "right_outer"), LOCK_WITHIN),
        ),
    ),
)
