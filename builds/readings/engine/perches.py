"""What work on springs was: perches turned, for the height or for the cross weight, or more than that.

Trade has one kind of work for springs, perches and dampers, since all of them make the same readings void. A perch that
is turned leaves a spring as stiff as it was. Common practice, no source.
"""

from builds.readings.engine.void import FinishedWork
from garage.engine.names_said import NameTable

SPRINGS, HEIGHT, WEIGHTS = "spring_change", "ride_height", "corner_weights"
MORE = "more"
_SAID = NameTable(
    {
        WEIGHTS: "perch*, spring perch*, cross weight*, corner weight*, corner balanc*, wedge, weigh*",
        HEIGHT: "ride height*, lower car, raise car",
        MORE: "spring*, coil spring*, damper*, shock*, coilover*, strut*, bump stop*, torsion bar*, top mount*",
    }
)


def _was(work: FinishedWork) -> frozenset[str]:
    """Of work on springs: what its readings say it was for, where it took none of these its title."""
    said = _SAID.said(work.title)
    if MORE in said or "joint_opened" in work.kinds:
        return frozenset({MORE})
    return frozenset({WEIGHTS, HEIGHT}.intersection(work.measures)) or said or frozenset({MORE})


def leaves_springs(work: FinishedWork) -> bool:
    """Whether it turned perches and nothing more, so that springs are as stiff as before."""
    return SPRINGS in work.kinds and MORE not in _was(work)


def sets_cross(work: FinishedWork) -> bool:
    """Whether it turned perches for the cross weight, not for the height alone."""
    return SPRINGS in work.kinds and WEIGHTS in _was(work)
