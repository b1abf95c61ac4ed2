"""Every sum there is, by topic; pages, the terminal, search and the tests read this table."""

from types import ModuleType

from builds.bench.alignment import camber, caster, string_box, toe_setting, toe_units
from builds.bench.brakes import brake_bias
from builds.bench.cooling import boiling, fan, heat
from builds.bench.drive import gearing
from builds.bench.fasteners import bolt_torque, thread_fit
from builds.bench.frame.sums import Sum
from builds.bench.paint import cure_time, dew_point
from builds.bench.steering import ackermann, rod_turn, steering_linkage
from builds.bench.suspension import spring_frequency
from builds.bench.weights import cg_height, corner_weights, masses, perch_turns
from builds.bench.wheels import stud_engagement, wheel_offset, wheel_pattern
from builds.bench.wiring import harness, inrush, wire_size

TOPICS: dict[str, tuple[ModuleType, ...]] = {
    "Weight": (corner_weights, perch_turns, masses, cg_height),
    "Steering": (steering_linkage, ackermann, rod_turn),
    "Alignment": (toe_units, string_box, toe_setting, caster, camber),
    "Springs": (spring_frequency,),
    "Brakes": (brake_bias,),
    "Wheels": (wheel_pattern, wheel_offset, stud_engagement),
    "Bolts and nuts": (bolt_torque, thread_fit),
    "Gearing": (gearing,),
    "Wiring": (wire_size, inrush, harness),
    "Cooling": (heat, fan, boiling),
    "Paint": (cure_time, dew_point),
}
SUMS: dict[str, Sum] = {module.SUM.slug: module.SUM for modules in TOPICS.values() for module in modules}


def sum_called(slug: str) -> Sum | None:
    """The sum of that name, None where there is none."""
    return SUMS.get(slug)
