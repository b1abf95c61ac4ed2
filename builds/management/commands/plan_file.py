"""Plan a problem file and print the plan as JSON; see builds/planner/problem.py."""

import sys
from argparse import ArgumentTypeError
from math import isfinite
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from builds.planner.files import read_problem, write_plan
from builds.planner.problem import ProblemError
from builds.planner.search import plan


def seconds(words: str) -> float:
    value = float(words)
    if not (isfinite(value) and value >= 0):
        raise ArgumentTypeError("seconds must be zero or more")
    return value


class Command(BaseCommand):
    help = "Plan a problem file; prints the plan as JSON."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("problem", help="the problem as a JSON file, or - for standard input")
        parser.add_argument("--seconds", type=seconds, default=2.0, help="time to search (2)")
        parser.add_argument("--seed", type=int, default=1, help="seed of the search (1)")

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
        answer = plan(problem, seconds=options["seconds"], seed=options["seed"])
        self.stdout.write(write_plan(answer))
