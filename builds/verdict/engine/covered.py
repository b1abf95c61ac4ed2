"""Which jobs of a recipe the hold points after them look at, so that they need no signature."""

from collections.abc import Iterable

# Kinds of work that leave a joint, a line or a belt that somebody else has to look at.
JOINTS = frozenset(
    {
        "joint_opened",
        "pin_out",
        "jam_nut",
        "part_weld",
        "chassis_weld",
        "steering_arm",
        "rack_spacer",
        "steering_column",
        "bushing_or_mount",
        "hydraulics_opened",
        "hub_opened",
        "seat_or_belt_moved",
        "fuel_line",
    }
)


def covered(points: Iterable[int], links: Iterable[tuple[int, int]]) -> frozenset[int]:
    """The jobs (ids) with a hold point of their own or on a job that waits for them.

    `points` are the jobs that carry one, leaving out what was dropped before it was signed: nobody
    will look there. `links` are (before, after) inside one recipe as it was put onto a car. An
    unsigned point counts, since it stands in the verdict itself. Linear in points and links.
    """
    befores: dict[int, list[int]] = {}
    for before, after in links:
        befores.setdefault(after, []).append(before)
    looked_at = set(points)
    reached = list(looked_at)
    while reached:
        for before in befores.get(reached.pop(), []):
            if before not in looked_at:
                looked_at.add(before)
                reached.append(before)
    return frozenset(looked_at)
