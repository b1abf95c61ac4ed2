"""What sums of perches and masses ask of a car: loads, size, rates, bars."""

from builds.bench.frame.sums import Answer, Ask, Given
from builds.bench.weights.car import LEFT_RIGHT, TRACKS, WHEELBASE, WHEELS
from builds.bench.weights.corner_weights import Corners
from builds.bench.weights.springs_model import GRAVITY, SpringChange, Stance

LOADS = tuple(
    Ask(slug, label, "kg", example, above=0, most=5_000, group="Scales", reading=f"corner_weights.{slug}")
    for slug, label, example in LEFT_RIGHT
)
SIZE = (WHEELBASE, *TRACKS)
RATES = tuple(
    Ask(
        f"rate_{end}",
        f"Wheel rate, {end}",
        "N/mm",
        example,
        above=0,
        most=2_000,
        group="Springs",
        figure=f"wheel_rate_{end}",
    )
    for end, example in (("front", "35"), ("rear", "30"))
)
BARS = tuple(
    Ask(
        f"bar_{end}",
        f"Bar, {end}, at the wheel",
        "N/mm",
        least=0,
        most=5_000,
        default="0",
        group="Springs",
        note="0 unhooked, as for weighing.",
    )
    for end in ("front", "rear")
)


def stance_of(given: Given) -> Stance:
    """The car of the figures given."""
    front, rear = given["rate_front"], given["rate_rear"]
    size = (given["wheelbase"], given["track_front"], given["track_rear"])
    return Stance(*size, (front, front, rear, rear), (given["bar_front"], given["bar_rear"]))


def loads_of(given: Given) -> Corners:
    """What the scales say, kg."""
    return Corners(*(given[slug] for slug in WHEELS))


def loads_after(corners: Corners, change: SpringChange) -> Corners:
    """Loads in kg after a change in N."""
    before = (corners.fl, corners.fr, corners.rl, corners.rr)
    return Corners(*(load + gained / GRAVITY for load, gained in zip(before, change.loads, strict=True)))


def answers_after(corners: Corners, change: SpringChange) -> tuple[Answer, ...]:
    """Loads, shares and heights after a change."""
    after = loads_after(corners, change)
    loads = (after.fl, after.fr, after.rl, after.rr)
    return (
        *(
            Answer(f"{slug}_after", f"{label}, after", load, "kg", 1)
            for (slug, label, _), load in zip(LEFT_RIGHT, loads, strict=True)
        ),
        Answer("total_after", "All together, after", after.total, "kg", 1),
        Answer("front_after", "On the front, after", after.front, "%", 1),
        Answer("left_after", "On the left, after", after.left, "%", 1),
        Answer("cross_after", "Cross, after", after.cross, "%", 1),
        *(
            Answer(f"{slug}_sinks", f"{label} sinks by", sinks, "mm", 1)
            for (slug, label, _), sinks in zip(LEFT_RIGHT, change.sinks, strict=True)
        ),
    )
