"""The car from above: what was read at each wheel beside that wheel, on the page and on the setup sheet."""

from collections.abc import Iterable
from dataclasses import dataclass

from builds.readings.engine.fields import CORNERS, FRONT, REAR
from builds.readings.pages.setup import SetupKind, SetupValue
from builds.readings.pages.words import STATE_WORDS

# What a picture of a few lines shows; the setup sheet has room for all that is read at a wheel.
ON_THE_PAGE = ("tyre_pressures", "corner_weights", "camber", "toe_rear", "toe_front")


@dataclass(frozen=True)
class Figure:
    """One figure as it was read; `note` says what is wanted there alone, and how it lies to that."""

    value: str = ""
    note: str = ""
    struck: bool = False


@dataclass(frozen=True)
class CornerRow:
    """A kind of reading at both wheels of an axle; None where it is not read of that wheel.

    `lapsed` says in a word why its figures count no more.
    """

    label: str
    said: str
    left: Figure | None
    right: Figure | None
    lapsed: str = ""


@dataclass(frozen=True)
class AxleRows:
    """`wheels` are the names of its left one and its right one."""

    wheels: tuple[str, str]
    rows: tuple[CornerRow, ...]

    @property
    def front(self) -> bool:
        return self.wheels[0] == FRONT[0][1]


@dataclass(frozen=True)
class FromAbove:
    """Axles of which anything is read, the front one first, and what follows from figures that still count."""

    axles: tuple[AxleRows, ...]
    derived: tuple[str, ...]


def from_above(kinds: Iterable[SetupKind]) -> FromAbove:
    """The few that tell how a car stands on its wheels, of those that were ever read."""
    few = [kind for kind in kinds if kind.key in ON_THE_PAGE and kind.taken]
    return FromAbove(axles_of(few), tuple(derived_said(few)))


def axles_of(kinds: Iterable[SetupKind]) -> tuple[AxleRows, ...]:
    at_corners = [kind for kind in kinds if by_wheel(kind)]
    axles = [
        AxleRows((left[1], right[1]), tuple(_axle(at_corners, left[0], right[0]))) for left, right in (FRONT, REAR)
    ]
    return tuple(axle for axle in axles if axle.rows)


def by_wheel(kind: SetupKind) -> bool:
    return {value.slug for value in kind.values} <= {slug for slug, _ in CORNERS}


def _axle(kinds: Iterable[SetupKind], *wheels: str) -> Iterable[CornerRow]:
    for kind in kinds:
        values = {value.slug: value for value in kind.values}
        left, right = (values.get(wheel) for wheel in wheels)
        if left or right:
            goals = {value.target for value in (left, right) if value}
            shared = goals.pop() if len(goals) == 1 else ""
            yield CornerRow(
                kind.label,
                said_of(kind, shared),
                figure_of(kind, left, shared),
                figure_of(kind, right, shared),
                STATE_WORDS[kind.state] if kind.lapsed else "",
            )


def said_of(kind: SetupKind, wanted: str = "") -> str:
    """How it stands, and what is wanted at both wheels."""
    again = "measure again" if kind.lapsed else ""
    besides = ["" if kind.required else "not required", f"wanted {wanted}" if wanted else ""]
    return ", ".join(filter(None, [STATE_WORDS[kind.state], again, *besides]))


def figure_of(kind: SetupKind, value: SetupValue | None, shared: str) -> Figure | None:
    if value is None:
        return None
    own = f"wanted {value.target}" if value.target and value.target != shared else ""
    judged = value.judged if value.target and not kind.lapsed else ""  # a check says by itself how it went
    return Figure(value.value, ", ".join(filter(None, [value.as_of, judged, own])), kind.lapsed)


def derived_said(kinds: Iterable[SetupKind]) -> Iterable[str]:
    """What follows from figures that still count."""
    for kind in kinds:
        if kind.derived and not kind.lapsed:
            figures = ", ".join(f"{label} {words}" for label, words in kind.derived)
            yield f"{kind.label}: {figures}."
