"""`python -m tests.benchmarks`: the planner measured beside its peers, as tables in Markdown."""

from __future__ import annotations

import os
import platform
from collections.abc import Iterable
from pathlib import Path
from time import perf_counter

from tests.benchmarks.planner import peers, tables


def main() -> None:
    begun = perf_counter()
    print(f"Machine: {_machine()}; load {os.getloadavg()[0]:.1f}.\n")
    absent = peers.missing()
    if absent:
        print(f"The library over a constraint solver is skipped: {absent}.\n")
    print("Published sets, mean / median per cent above the best known (one core; library: two)\n")
    rows = [tables.published(name, 2) for name in ("j30", "j60", "j120")]
    rows.append(tables.published("j120", 20, every=3, peer=False))
    _table([("set", "planner", "library"), *rows])
    print("Scores: cars that miss, late safety, late needed, late wanted, ends of the cars, sum of ends;")
    print("* = the library proved its weighted lateness least. It leaves holds out, and where cars stand;")
    print("† = so that its plan has a fault by the checker: it cannot be followed, and nothing is held against it.\n")
    rows = _table(tables.fleets())
    print("The same as README has it: cars that miss, late safety, late needed, late wanted\n")
    _table(tables.late_only(rows))
    if not absent:
        print("Fleets of up to twelve jobs no worse in 1 s than the least sum of ends proved:", end=" ")
        print(*tables.small_fleets(), end=".\n\n")
    _table(tables.first_pass())
    print(f"Measured in {(perf_counter() - begun) / 60:.1f} minutes, load {os.getloadavg()[0]:.1f} at the end.")


def _table(rows: Iterable[tuple[str, ...]]) -> list[tuple[str, ...]]:
    """Print the rows as they come, the heading first; and all of them."""
    printed = []
    for number, row in enumerate(rows):
        printed.append(row)
        print("|", " | ".join(row), "|", flush=True)
        if number == 0:
            print("|", " | ".join("---" for _ in row), "|")
    print()
    return printed


def _machine() -> str:
    info = Path("/proc/cpuinfo")
    names = [line for line in info.read_text().splitlines() if line.startswith("model name")]
    model = names[0].split(":")[1].strip() if names else platform.processor()
    return f"{model}, {os.cpu_count()} cores, {platform.system()}, Python {platform.python_version()}"


if __name__ == "__main__":
    main()
