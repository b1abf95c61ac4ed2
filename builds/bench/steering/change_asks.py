"""What the sum of a changed steering asks: the car as it is, and what is to be done to it."""

from builds.bench.frame.sums import Ask
from builds.bench.steering.asks import ASKS, EFFORT, TRAVEL

JOINT, OTHER = "joint", "other"
WANTED, AS_NOW = "Afterwards", "Left empty: as now."
CHANGE_ASKS = (
    *ASKS,
    TRAVEL,
    *EFFORT,
    Ask("new_arm", "Steering arm", "mm", "95", above=0, most=500, needed=False, group=WANTED, note=AS_NOW),
    Ask(
        "new_arm_in",
        "Arm's tip points inboard by",
        "°",
        least=-60,
        most=60,
        needed=False,
        group=WANTED,
        note=AS_NOW,
    ),
    Ask(
        "new_rack",
        "Rack from the king-pin axes",
        "mm",
        least=-500,
        most=500,
        needed=False,
        group=WANTED,
        note=AS_NOW,
    ),
    Ask("spacer", "Spacer at each end of the rack", "mm", least=0, most=50, default="0", group=WANTED),
    Ask(
        "stopped_by",
        "The rack is stopped by",
        choices=((JOINT, "The inner joint on the housing"), (OTHER, "A lock stop, or something else")),
        default=JOINT,
        group=WANTED,
    ),
    Ask(
        "aside",
        "Rack to the left of its middle, wheels ahead, by",
        "mm",
        least=-100,
        most=100,
        default="0",
        group=WANTED,
    ),
    Ask(
        "longer",
        "Each tie rod longer than for wheels straight ahead by",
        "mm",
        least=-50,
        most=50,
        default="0",
        group=WANTED,
    ),
    Ask(
        "engaged",
        "Thread engaged in the rack's end now",
        "mm",
        above=0,
        most=100,
        needed=False,
        group=WANTED,
        figure="rack_thread",
    ),
    Ask("across", "That thread, across", "mm", above=0, most=40, default="14", group=WANTED),
)
