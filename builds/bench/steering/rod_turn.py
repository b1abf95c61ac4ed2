"""Tie-rod turns: how much a turn of the tie rod moves toe on this car."""

import dataclasses
import math

from builds.bench.frame.sums import Answer, Ask, Given, Offered, Sum, SumError, Texts, Worked
from builds.bench.steering.asks import ASKS, linkage_of
from builds.bench.steering.linkage import LEFT, Linkage, OverCentreError
from builds.bench.steering.plan_view import plan_view


def toe_of(linkage: Linkage, longer: float) -> float:
    """Degrees of toe-in of one wheel when its tie rod is that much longer (mm)."""
    try:
        # a left wheel turned to the right points inwards
        return -dataclasses.replace(linkage, longer=longer).angle(LEFT, 0)
    except OverCentreError:
        raise SumError("The tie rod cannot get that long or that short with this linkage.", "turns") from None


def _work(given: Given, texts: Texts) -> Worked:
    linkage = linkage_of(given, texts)
    pitch, turns = given["pitch"], given["turns"]
    by_gain = math.degrees(pitch * linkage.rod_gain(LEFT, 0))
    answers = (
        Answer("longer", "Toe-in for a turn longer", toe_of(linkage, pitch), "°", 2),
        Answer("shorter", "Toe-in for a turn shorter", toe_of(linkage, -pitch), "°", 2),
        Answer("by_gain", "A turn, near straight ahead", by_gain, "°", 2),
        Answer("turned", f"Toe-in for {turns:g} turns longer", toe_of(linkage, turns * pitch), "°", 2),
        Answer("quarter", "A quarter of a turn, both wheels", by_gain / 2, "°", 2),
    )
    return Worked(answers, plan_view(linkage, 0, "Straight ahead"))


SUM = Sum(
    slug="tie-rod-turn",
    title="Tie-rod turns",
    question="How much does a turn of the tie rod move toe?",
    asks=(
        *ASKS,
        Ask("pitch", "Thread pitch of the tie rod", "mm", "1.5", above=0, most=5, figure="tie_rod_pitch"),
        Ask("turns", "Turns longer, below 0 shorter", "", "0.25", least=-20, most=20, default="0.25"),
    ),
    work=_work,
    formula=("toe = change of the arm's direction with rod + turns × pitch", "near straight ahead pitch / (arm sin μ)"),
    source="Plane linkage solved exactly",
    assumes="Toe-in is above 0. Arms and rack as given; an arm that points backwards toes in as its rod gets longer.",
    limits="Plan view: caster and inclination change it by a few per cent.",
    caution="Tighten and stripe the jam nuts after every change, and see that rod ends are past their witness holes.",
    offered=Offered(readings=("toe_front", "jam_nuts"), systems=("steering",), checks=("longer", "shorter")),
)
