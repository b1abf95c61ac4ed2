"""Every sum there is, by topic; pages, the terminal, search and the tests read this table."""

from builds.bench.alignment import camber, caster, string_box, toe_setting, toe_units
from builds.bench.brakes import brake_bias
from builds.bench.cooling import boiling, fan, heat
from builds.bench.drive import gearing
from builds.bench.fasteners import bolt_torque, thread_fit
from builds.bench.frame.sums import Sum
from builds.bench.paint import cure_time, dew_point
from builds.bench.steering import ackermann, rod_turn, steering_change, steering_linkage
from builds.bench.suspension import bump_steer, spring_frequency
from builds.bench.weights import cg_height, corner_weights, masses, perch_turns
from builds.bench.wheels import stud_engagement, wheel_offset, wheel_on_hub, wheel_pattern
from builds.bench.wiring import harness, inrush, wire_size

TOPICS: dict[str, tuple[Sum, ...]] = {
    "Weight": (corner_weights.SUM, perch_turns.SUM, masses.SUM, cg_height.SUM),
    "Steering": (steering_linkage.SUM, steering_change.SUM, ackermann.SUM, rod_turn.SUM),
    "Alignment": (toe_units.SUM, string_box.SUM, toe_setting.SUM, caster.SUM, camber.SUM),
    "Suspension": (spring_frequency.SUM, bump_steer.WISHBONE_SUM, bump_steer.STRUT_SUM),
    "Brakes": (brake_bias.SUM,),
    "Wheels": (wheel_pattern.SUM, wheel_on_hub.SUM, wheel_offset.SUM, stud_engagement.SUM),
    "Bolts and nuts": (bolt_torque.SUM, thread_fit.SUM),
    "Gearing": (gearing.SUM,),
    "Wiring": (wire_size.SUM, inrush.SUM, harness.SUM),
    "Cooling": (heat.SUM, fan.SUM, boiling.SUM),
    "Paint": (cure_time.SUM, dew_point.SUM),
}
SUMS: dict[str, Sum] = {one.slug: one for sums in TOPICS.values() for one in sums}


def sum_called(slug: str) -> Sum | None:
    """The sum of that name, None where there is none."""
    return SUMS.get(slug)
