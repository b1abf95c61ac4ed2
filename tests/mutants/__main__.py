"""Makes small faults in engines, verdict, ledger, actions and access, runs the tests that call them, prints what slips.

usage: python -m tests.mutants [--number 200] [--seed 7] [--only builds/steps,parts] [--seconds 60] [--anew] [tests]

Tests are traced once; what they call is kept in `.pytest_cache`, by the text of the test file. Code that changed since
may be called by more tests than are known: a fault may then be said to slip that does not; `--anew` traces them again.
"""

import argparse
import random
import shutil
import sys
from collections import defaultdict
from hashlib import sha256
from itertools import accumulate, islice
from pathlib import Path

import pytest

from tests.house.places import APPS, ROOT, files, shown
from tests.mutants import calls
from tests.mutants.forked import failure_from_the_start, first_failure
from tests.mutants.live import Loaded, faulty
from tests.mutants.mutate import Mutant, places

LAYERS = {"actions", "engine", "access.py", "actions.py", "engine.py", "verdict"}
LEDGER = ROOT / "parts" / "models"
KEPT = ROOT / ".pytest_cache" / "mutants"
TESTS = [f"tests/{folder}" for folder in ("builds", "garage", "parts", "property", "published")]


def drawn(number: int, seed: int, only: str) -> list[tuple[Path, Mutant]]:
    """So many of all faults, the same for the same seed. The demo's figures are invented: none of them is wrong."""
    code = [file for file in files("*.py", *APPS) if not shown(file).startswith("builds/demo/")]
    if only:
        code = [file for file in code if shown(file).startswith(tuple(only.split(",")))]
    else:
        code = [file for file in code if LAYERS.intersection(shown(file).split("/")) or LEDGER in file.parents]
    faults = [(file, *place) for file in code for place in places(file.read_text())]
    chosen = random.Random(seed).sample(faults, min(number, len(faults)))
    return [(file, Mutant(file.read_text(), *place)) for file, *place in chosen]


class Hunt:
    """A pytest plugin: the database is made once, tests are traced once, each fault lives and dies in a fork."""

    def __init__(self, told: argparse.Namespace) -> None:
        self.told = told
        self.sound: set[str] = set()  # tests that pass alone without a fault

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        self.at_import, self.loaded = calls.end(), Loaded()
        self.items = {item.nodeid: item for item in session.items}
        self.called = self.traced(session)
        # One test with rows, so that this process has the database that each fork finds.
        for item in islice((item for item in session.items if not item.get_closest_marker("plain")), 1):
            calls.passes(item, session)
        self.loaded = Loaded()
        self.hunt(drawn(self.told.number, self.told.seed, self.told.only))
        return True

    def traced(self, session: pytest.Session) -> dict[str, calls.Called]:
        called, tests_of = {}, defaultdict(list)
        for item in session.items:
            tests_of[item.path].append(item)
        if self.told.anew:
            shutil.rmtree(KEPT, ignore_errors=True)
        KEPT.mkdir(parents=True, exist_ok=True)
        for file, tests in tests_of.items():
            text = sha256(shown(file).encode() + file.read_bytes()).hexdigest()
            kept = KEPT / f"{text}.json"
            if not kept.exists():
                calls.keep(kept, known := self.traced_now(tests))
                say(f"traced {shown(file)}: {len(known)} of {len(tests)} pass")
            called |= calls.kept(kept)
        return {name: what for name, what in called.items() if name in self.items}

    def traced_now(self, tests: list[pytest.Item]) -> dict[str, calls.Called]:
        called = {}
        for test, after in zip(tests, [*tests[1:], tests[0].session], strict=True):
            self.loaded.forget()
            if what := calls.traced(test, after):
                called[test.nodeid] = what
        return called

    def callers(self, functions: set[str]) -> list[str]:
        """Tests that call one of them, as many as fit into the time: those of the files done soonest first."""
        tests = [name for name, what in self.called.items() if functions & what.functions]
        length = defaultdict(float)
        for name in tests:
            length[self.items[name].path] += self.called[name].seconds
        tests.sort(key=lambda name: length[self.items[name].path])
        spent = accumulate(self.called[name].seconds for name in tests)
        return [name for name, seconds in zip(tests, spent, strict=True) if seconds <= self.told.seconds] or tests[:1]

    def noticed_by(self, file: Path, mutant: Mutant) -> str:
        """The test that notices the fault, or nothing."""
        names, becomes = faulty(file, mutant)
        functions = {f"{shown(file)}:{name}" for name in names}
        room = "/".join(shown(file).split("/")[: 2 if ROOT / "builds" in file.parents else 1])
        tests = self.callers(functions)
        while tests:
            seconds = sum(self.called[name].seconds for name in tests)
            given = [self.items[name] for name in tests]
            failed = first_failure(given, lambda: self.loaded.put(file, becomes), seconds)
            if not failed:
                break
            if failed in self.sound or not first_failure([self.items[failed]], self.loaded.forget, seconds):
                self.sound.add(failed)
                return failed
            tests.remove(failed)  # it fails without the fault as well
        if functions & self.at_import:  # what it made stands already: a new process makes it anew
            return failure_from_the_start(file, mutant, ROOT / "tests" / room, self.told.seconds)
        return ""

    def hunt(self, faults: list[tuple[Path, Mutant]]) -> None:
        noticed = 0
        for number, (file, mutant) in enumerate(faults, 1):
            test = self.noticed_by(file, mutant)
            noticed += bool(test)
            words = f"{mutant.before.splitlines()[0][:70]}  ->  {mutant.after[:70]}  {test}"
            say(f"{number}/{len(faults)} {'noticed' if test else 'SLIPPED'} {shown(file)}:{mutant.line}  {words}")
        say(f"{noticed} of {len(faults)} noticed (seed {self.told.seed}); the rest changes nothing or lacks a test")


def say(words: str) -> None:
    print(words, file=sys.__stdout__, flush=True)


def main() -> None:
    ask = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    ask.add_argument("--number", type=int, default=200)
    ask.add_argument("--seed", type=int, default=7)
    ask.add_argument("--only", default="")
    ask.add_argument("--seconds", type=int, default=60)
    ask.add_argument("--anew", action="store_true")
    ask.add_argument("tests", nargs="*", default=TESTS)
    told, more = ask.parse_known_args()
    calls.begin()
    pytest.main(["-qq", "-p", "no:cacheprovider", "--capture=sys", *more, *told.tests], plugins=[Hunt(told)])


if __name__ == "__main__":
    main()
