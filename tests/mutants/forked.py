"""Tests run with a fault, in a process that ends with it; the limit is CPU time, whatever else the machine does."""

import os
import resource
import shutil
import signal
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from tests.house.places import ROOT, shown
from tests.mutants.calls import passes
from tests.mutants.mutate import Mutant


def _limit(seconds: float) -> None:
    most = int(10 + 3 * seconds)
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    resource.setrlimit(resource.RLIMIT_CPU, (most, most))
    signal.alarm(100 * most)  # for what waits for ever and takes no time


def first_failure(tests: list[pytest.Item], fault: Callable[[], None], seconds: float) -> str:
    """The first test that fails, or no longer ends, of tests that take so long without the fault; else nothing."""
    told, tell = os.pipe()
    child = os.fork()
    if not child:
        _limit(seconds)
        fault()
        for test, after in zip(tests, [*tests[1:], tests[0].session], strict=True):
            os.write(tell, f"{test.nodeid}\n".encode())
            if not passes(test, after):
                os._exit(1)
        os._exit(0)
    os.close(tell)
    with os.fdopen(told) as begun:
        names = begun.read().splitlines()
    return names[-1] if os.waitpid(child, 0)[1] else ""


def failure_from_the_start(file: Path, mutant: Mutant, tests: Path, seconds: float) -> str:
    """The folder of tests, where one of them fails in a copy of the project that has the fault from the start."""
    with TemporaryDirectory() as place:
        tree = Path(place) / "tree"
        shutil.copytree(ROOT, tree, ignore=shutil.ignore_patterns(".venv", ".git", "data", "__pycache__", ".*_cache"))
        (tree / shown(file)).write_text(mutant.source)
        run = [sys.executable, "-m", "pytest", "-x", "-q", "-p", "no:cacheprovider", shown(tests)]
        told = {"cwd": tree, "capture_output": True, "preexec_fn": lambda: _limit(seconds)}
        done = subprocess.run(run, check=False, **told)  # noqa: S603 (our words)
    return shown(tests) if done.returncode else ""
