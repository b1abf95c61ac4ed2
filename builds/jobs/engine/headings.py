"""Which line of a pasted list is a heading, and no job."""

import re

from builds.steps.engine.by_words import job_said
from garage.engine.names_said import plain

_TO_DO = re.compile(r"\bTO[ -]?DO\b")
_ALONE = frozenset({"to do", "todo", "to do list", "todo list", "job list", "jobs"})


def is_heading(line: str, car: str = "") -> bool:
    """What ends with a colon; what says TO DO in capitals, or names the car (`car`) in capitals, and no work on it."""
    said = plain(line)
    if not said:
        return False
    if line.endswith(":") or said in _ALONE:
        return True
    work = job_said(line)
    if work.systems or work.kinds or work.measures:
        return False
    names_it = bool(car) and f" {plain(car)} " in f" {said} "
    return bool(_TO_DO.search(line)) or (names_it and line == line.upper())
