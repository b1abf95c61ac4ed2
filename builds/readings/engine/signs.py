"""Which way a signed angle counts: said wherever one is shown or typed."""

# Toe and caster by ISO 8855:2011 7.1.6 and its axes; camber by common practice, no source.
SIGNS = {
    "toe_front": "toe-in +",
    "toe_rear": "toe-in +",
    "bump_steer": "toe-in +",
    "camber": "top out +",
    "caster": "top back +",
}


def with_sign(label: str, kind: str) -> str:
    """`Camber (top out +)`; the label alone of a kind (slug) whose figures need none."""
    return f"{label} ({SIGNS[kind]})" if kind in SIGNS else label
