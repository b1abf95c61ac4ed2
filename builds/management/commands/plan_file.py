"""Plan a problem file and print the plan as JSON, with its odds on request; see builds/planner/problem.py."""

import json
import sys
from argparse import ArgumentTypeError
from math import isfinite
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from builds.odds.answer import Odds
from builds.odds.simulate import own_ranges, simulate
from builds.planner.both import plan_on_both
from builds.planner.files import plan_table, read_problem
from builds.planner.problem import ProblemError

MOST_RUNS = 100_000


def seconds(words: str) -> float:
    value = float(words)
    if not (isfinite(value) and value >= 0):
        raise ArgumentTypeError("seconds must be zero or more")
    return value


def runs(words: str) -> int:
    value = int(words)
    if not 1 <= value <= MOST_RUNS:
        raise ArgumentTypeError(f"runs must lie between 1 and {MOST_RUNS:,}")
    return value


def odds_table(odds: Odds) -> dict[str, Any]:
    """By car with something due: the share of the runs in time, and the slot by which 8 of 10 were done."""
    return {
        name: {"share": car.share, "runs": car.runs, "eight_in_ten": car.ready_by()}
        for name, car in odds.vehicles.items()
        if car.share is not None
    }


class Command(BaseCommand):
    help = "Plan a problem file; prints the plan as JSON."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("problem", help="the problem as a JSON file, or - for standard input")
        parser.add_argument("--seconds", type=seconds, default=2.0, help="time to search (2)")
        parser.add_argument("--seed", type=int, default=1, help="seed of the search and of the odds (1)")
        parser.add_argument("--odds", type=runs, metavar="RUNS", help="also the odds, from so many runs")

    def handle(self, *args: Any, **options: Any) -> None:
        name = options["problem"]
        try:
            words = sys.stdin.buffer.read() if name == "-" else Path(name).read_bytes()
        except OSError as error:
            raise CommandError(f"{name} cannot be read: {error.strerror}.") from error
        try:
            problem = read_problem(words)
        except ProblemError as error:
            raise CommandError(str(error)) from error
        answer = plan_on_both(problem, seconds=options["seconds"], seed=options["seed"])
        table = plan_table(answer)
        if options["odds"]:
            odds = simulate(problem, own_ranges(problem), runs=options["odds"], seed=options["seed"])
            table["odds"] = odds_table(odds)
        self.stdout.write(json.dumps(table))
