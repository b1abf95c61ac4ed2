"""The map of the rooms as a drawing: `python -m tests.house.draw_rooms`, or `make map`.

A row a level, an arrow where one room imports another. What a room imports through a room that it
imports as well is left out, so that the drawing can be read.
"""

import ast
from html import escape
from pathlib import Path

from tests.house.places import ROOT, files
from tests.house.rooms import Room, rooms

FILE = ROOT / "static" / "pictures" / "rooms.svg"
WIDE, HIGH, GAP, ROW = 132, 34, 14, 74
INK, CARD, LINE = "#1b1f24", "#f6f2e7", "#8a8578"


def imported(file: Path) -> set[str]:
    """Rooms of builds that a file imports from."""
    names = set()
    for node in ast.walk(ast.parse(file.read_text())):
        if isinstance(node, ast.ImportFrom) and node.module:
            app, *path = node.module.split(".")
            if app == "builds" and path:
                names.add(path[0])
    return names


def arrows(known: list[Room]) -> dict[str, set[str]]:
    """For each room the rooms that it imports, without those it reaches by a longer way too."""
    names = {room.name for room in known}
    direct = {
        name: set().union(*(imported(file) for file in files("*.py", f"builds/{name}"))) & names - {name}
        for name in names
    }
    reach: dict[str, set[str]] = {}
    for room in sorted(known, key=lambda room: -room.level):
        reach[room.name] = direct[room.name].union(*(reach.get(below, set()) for below in direct[room.name]))
    return {
        name: {
            below
            for below in direct[name]
            if not any(below in reach.get(other, set()) for other in direct[name] - {below})
        }
        for name in names
    }


def drawing() -> str:
    """The SVG, always the same for the same contracts and imports."""
    known = rooms()
    levels = sorted({room.level for room in known})
    across = max(sum(room.level == level for room in known) for level in levels)
    width = across * (WIDE + GAP) + GAP
    at: dict[str, tuple[float, float]] = {}
    for row, level in enumerate(levels):
        names = [room.name for room in known if room.level == level]
        left = (width - len(names) * (WIDE + GAP) + GAP) / 2
        for place, name in enumerate(names):
            # Every second row stands aside a little, so that arrows pass between the rooms.
            shift = (row % 2) * (WIDE / 3) * (1 if len(names) < across else 0)
            at[name] = (left + shift + place * (WIDE + GAP), GAP + row * ROW)
    height = GAP + len(levels) * ROW - (ROW - HIGH) + GAP
    lines = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width:g} {height:g}" role="img" font-size="13"'
        ' font-family="system-ui, sans-serif" text-anchor="middle">',
        "<title>The rooms of builds: an arrow leads from a room to one that it imports</title>",
        f'<rect width="{width:g}" height="{height:g}" fill="{CARD}"/>',
        f'<g stroke="{LINE}" fill="none" stroke-width="1.2">',
    ]
    for name, imports in sorted(arrows(known).items()):
        for below in sorted(imports):
            (x1, y1), (x2, y2) = at[name], at[below]
            start, end = (x1 + WIDE / 2, y1 + HIGH), (x2 + WIDE / 2, y2)
            bend = (end[1] - start[1]) / 2
            lines.append(
                f'<path d="M{start[0]:g} {start[1]:g}C{start[0]:g} {start[1] + bend:g} {end[0]:g}'
                f' {end[1] - bend:g} {end[0]:g} {end[1]:g}"/>'
            )
    lines.append("</g>")
    for room in known:
        x, y = at[room.name]
        lines += [
            f'<g><title>{escape(room.holds)}</title><rect x="{x:g}" y="{y:g}" width="{WIDE}" height="{HIGH}"'
            f' rx="4" fill="#fff" stroke="{INK}"/>',
            f'<text x="{x + WIDE / 2:g}" y="{y + HIGH / 2 + 4:g}" fill="{INK}">{room.name}</text></g>',
        ]
    return "\n".join([*lines, "</svg>", ""])


if __name__ == "__main__":
    FILE.write_text(drawing())
    print(f"{FILE.relative_to(ROOT)} is drawn.")
