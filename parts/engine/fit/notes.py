"""What is good to know beside an interface: engagement, stress area, how far apart studs stand."""

from parts.engine.fit.interface import Hub, Interface, Threaded, Wheel
from parts.engine.fit.numbers import plain
from parts.engine.fit.pattern import chord
from parts.engine.fit.studs import engagement_needed, full_turns


def note(interface: Interface) -> str:
    """One or two sentences of computed figures, an estimate; nothing for what has none.

    Source: the rules of `studs`, `thread` and `pattern`.
    """
    if isinstance(interface, Threaded):
        diameter, pitch = float(interface.thread.diameter), float(interface.thread.pitch)
        steel, soft = (engagement_needed(diameter, in_soft_metal) for in_soft_metal in (False, True))
        return (
            f"Engage at least {plain(steel, 1)} mm in steel ({plain(full_turns(steel, pitch), 1)} "
            f"full turns), {plain(soft, 1)} mm in soft metal "
            f"({plain(full_turns(soft, pitch), 1)} turns)."
        )
    if isinstance(interface, Wheel | Hub):
        pattern = interface.pattern
        apart = chord(float(pattern.pcd), pattern.studs)
        return f"Neighbouring studs stand {plain(apart, 2)} mm apart, centre to centre."
    return ""
