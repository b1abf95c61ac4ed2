"""Which line of a pasted list is a heading, and no job."""

import re

from builds.steps.engine.by_words import job_said
from garage.engine.names_said import plain

_TO_DO = re.compile(r"\bTO[ -]?DO\b")
_ALONE = frozenset({"to do", "todo", "to do list", "todo list", "job list", "jobs"})


def is_heading(line: str, car: str = "") -> bool:
    """What ends with a colon, says TO DO in capitals, or names the car (`car`) in capitals and no work on it."""
    said = plain(line)
    if not said:
        return False
    if line.endswith(":") or _TO_DO.search(line) or said in _ALONE:
        return True
    names_it = bool(car) and f" {plain(car)} " in f" {said} "
    work = job_said(line)
    return names_it and line == line.upper() and not (work.systems or work.kinds or work.measures)
