"""`python -m tests.benchmarks.pages`: what every page and some taps cost at one year and at five, as a table."""

import argparse
import json
import os
import subprocess
import sys
from typing import Any

QUERIES, CPU_MS, WIRE, GROWTH = 25, 100, 60_000, 1.5
TAP_MS, TAP_WIRE = 50, 10_000
SUM_MS = 150  # of what is drawn in three dimensions
Row = dict[str, Any]


def main() -> None:
    """Each garage in a process and a database of its own."""
    given = argparse.ArgumentParser(description=__doc__)
    given.add_argument("--years", type=int, nargs=2, default=[1, 5])
    given.add_argument("--only", default="", help="pages whose name holds this")
    given.add_argument("--keep", action="store_true", help="use the databases of the last run, and leave them")
    asked = given.parse_args()
    before, after = (_measure(years, asked) for years in asked.years)
    _table("page", before["pages"], after["pages"], asked.years, (QUERIES, CPU_MS, WIRE))
    _table("tap", before["taps"], after["taps"], asked.years, (QUERIES, TAP_MS, TAP_WIRE))
    print("Not drawn:", ", ".join(after["not_drawn"]) or "none")


def _measure(years: int, asked: argparse.Namespace) -> Row:
    words = ["--years", str(years), "--only", asked.only, *(["--keep"] if asked.keep else [])]
    ran = subprocess.run(  # noqa: S603 (our own interpreter, our own words)
        [sys.executable, "-m", "tests.benchmarks.pages.run", *words],
        stdout=subprocess.PIPE, env=os.environ, text=True, check=True,
    )  # fmt: skip
    return json.loads(ran.stdout)


def _table(what: str, before: Row, after: Row, years: list[int], limits: tuple[int, int, int]) -> None:
    """Worst first; what is beyond a limit is marked with a star."""
    most_queries, most_ms, most_wire = limits
    first, last = years
    print(f"\n| {what} | queries | CPU ms, {first} y | {last} y | growth | kB | kB on the wire |")
    print("| --- | --: | --: | --: | --: | --: | --: |")
    beyond = 0
    for name, row in sorted(after.items(), key=lambda pair: -pair[1]["ms"]):
        young = before[name]
        growth = row["ms"] / young["ms"]
        most = SUM_MS if "3d" in name else most_ms
        columns = [
            (f"{row['queries']}", row["queries"] > most_queries),
            (f"{young['ms']:.0f}", False),
            (f"{row['ms']:.0f}", row["ms"] > most),
            (f"{growth:.1f}", growth > GROWTH and row["ms"] > most / 10),
            (f"{row['raw'] / 1000:.0f}", False),
            (f"{row['wire'] / 1000:.1f}", row["wire"] > most_wire),
        ]
        beyond += any(over for _, over in columns)
        print("|", " | ".join([name, *(f"{text}{' *' if over else ''}" for text, over in columns)]), "|")
    print(f"\n{len(after) - beyond} of {len(after)} within their limits (* is beyond one).")


if __name__ == "__main__":
    main()
