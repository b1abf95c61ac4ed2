"""Hard points of a corner as they are typed, or pasted from a spreadsheet: a name and three figures a line."""

import re

from builds.bench.frame.sums import SumError
from builds.bench.suspension.space import Vector
from garage.engine.said import said
from garage.engine.units import QuantityError

WISHBONE = ("lower front", "lower rear", "lower joint", "upper front", "upper rear", "upper joint")
STRUT = ("lower front", "lower rear", "lower joint", "strut top", "strut low")
SHARED = ("rod inner", "rod outer", "wheel")
FARTHEST = 10_000.0  # mm
_HEAD = re.compile(r"(?:point|name)\W+x\W.*", re.IGNORECASE)


def points_of(text: str, wanted: tuple[str, ...]) -> dict[str, Vector]:
    """By name, the points of lines such as `lower front 170 340 185`, y made above 0 as for a left wheel, mm.

    SumError names the line that cannot be read, a point that is missing, twice there or none of these.
    """
    points: dict[str, Vector] = {}
    for line in (line.strip() for line in text.splitlines() if line.strip()):
        if not points and _HEAD.fullmatch(line):
            continue
        name, point = _point(line)
        if name not in wanted:
            raise SumError(f"“{name[:40]}” is no point of this: write {', '.join(wanted)}.", "points")
        if name in points:
            raise SumError(f"“{name}” stands twice.", "points")
        points[name] = point
    if missing := [name for name in wanted if name not in points]:
        raise SumError(f"Still missing: {', '.join(missing)}.", "points")
    if points["wheel"][1] == 0:
        raise SumError("The wheel stands to the left or to the right of the middle, not at y 0.", "points")
    if points["wheel"][1] < 0:
        points = {name: (x, -y, z) for name, (x, y, z) in points.items()}
    return points


def _point(line: str) -> tuple[str, Vector]:
    """Parts are cut at semicolons or tabs where there are some, so that a comma may be a decimal one."""
    parts = [part.strip(" \"'") for part in re.split(r"[;\t]" if re.search(r"[;\t]", line) else r"[\s,:=]+", line)]
    parts = [part for part in parts if part]
    if len(parts) < 4:
        raise SumError(f"“{line[:60]}”: write a name and three figures, x forward, y to the left, z up.", "points")
    try:
        x, y, z = (float(said(part, "mm", "mm")) for part in parts[-3:])
    except QuantityError as refusal:
        raise SumError(f"“{line[:60]}”: {refusal}", "points") from None
    if max(abs(x), abs(y), abs(z)) > FARTHEST:
        raise SumError(f"“{line[:60]}”: that is more than 10 m away.", "points")
    return " ".join(" ".join(parts[:-3]).lower().replace("_", " ").split()), (x, y, z)
