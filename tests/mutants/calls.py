"""Which test calls which functions of ours, and what it takes."""

import json
import sys
import threading
import time
from pathlib import Path
from typing import NamedTuple

import pytest
from _pytest.runner import runtestprotocol

from tests.house.places import APPS, files, shown

OURS = {str(file): shown(file) for file in files("*.py", *APPS)}
_noted: set[tuple[str, str]] = set()


class Called(NamedTuple):
    """CPU seconds of a test that passes, and the functions it calls as `file:name`."""

    seconds: float
    functions: frozenset[str]


def _note(frame, event, arg) -> None:
    """Each call of a function that lies in our files; told of no line, so that tests take hardly longer."""
    if frame.f_code.co_filename in OURS:
        _noted.add((frame.f_code.co_filename, frame.f_code.co_qualname))


def begin() -> None:
    _noted.clear()
    threading.settrace(_note)
    sys.settrace(_note)


def end() -> frozenset[str]:
    sys.settrace(None)
    threading.settrace(None)
    return frozenset(sys.intern(f"{OURS[file]}:{name}") for file, name in _noted)


def passes(item: pytest.Item, after: pytest.Item | pytest.Session) -> bool:
    """What both need stays made between them."""
    return not any(report.failed for report in runtestprotocol(item, log=False, nextitem=after))


def traced(item: pytest.Item, after: pytest.Item | pytest.Session) -> Called | None:
    """Nothing of a test that fails by itself: it notices no fault."""
    began = time.process_time()
    begin()
    passed = passes(item, after)
    called = Called(time.process_time() - began, end())
    return called if passed else None


def keep(file: Path, called: dict[str, Called]) -> None:
    """In one piece: whoever ends the hunt meanwhile leaves no half of it."""
    half = file.with_suffix(".half")
    half.write_text(json.dumps({test: (what.seconds, sorted(what.functions)) for test, what in called.items()}))
    half.replace(file)


def kept(file: Path) -> dict[str, Called]:
    told = json.loads(file.read_text())
    return {test: Called(seconds, frozenset(map(sys.intern, names))) for test, (seconds, names) in told.items()}
