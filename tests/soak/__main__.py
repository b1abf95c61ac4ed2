"""`python -m tests.soak`: the real server worked in by eight, killed at random, then counted; ends with 1 if wrong."""

import argparse
import os
import sys

from tests.soak.home import home
from tests.soak.report import lines
from tests.soak.run import Soak

MOST_MINUTES = 15.0


def main() -> None:
    given = argparse.ArgumentParser(description=__doc__)
    given.add_argument("--minutes", type=float, default=10.0, help=f"of work, {MOST_MINUTES:.0f} at most")
    given.add_argument("--kills", type=int, default=200)
    given.add_argument("--writers", type=int, default=8)
    given.add_argument("--locked", type=float, default=30.0, help="seconds for which the database is locked once")
    given.add_argument("--seed", type=int, default=7)
    given.add_argument("--keep", action="store_true", help="leave the folder and the database")
    asked = given.parse_args()
    minutes = min(asked.minutes, MOST_MINUTES)
    soak = Soak(60 * minutes, asked.kills, asked.writers, asked.locked, asked.seed)
    with home(os.environ.get("DATABASE_URL", ""), keep=asked.keep) as place:
        soak.run(place, place.filled(asked.writers))
        print(*lines(soak, place.kind), sep="\n")
    sys.exit(bool(soak.wrong))


if __name__ == "__main__":
    main()
