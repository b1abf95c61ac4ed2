"""A list of jobs as somebody pastes it: a line a job, with its length, what it touches and its rank where said."""

import re
from collections.abc import Iterable
from dataclasses import dataclass

from garage.engine.systems import SYSTEMS
from garage.engine.systems_said import hurts_by_words, systems_said
from garage.engine.words import duration_words, parse_duration

MOST_LINES, MOST_OF_A_LINE, MOST_LETTERS = 100, 600, 120  # a list, a line of it, a title
GUESS = 60  # minutes of a job that nobody gave a length
RANKS = ("safety", "needed", "wanted")
BULLET = re.compile(r"^\s*(?:[-*•–]|\[[ xX]?\]|\d{1,3}[.)])\s+")
COLUMNS = re.compile(r"\t|;")
AT_THE_END = re.compile(r"[\s,(]+(\d+(?:[.,]\d+)?\s*(?:h|hours?|min|minutes?)|\d{1,2}:\d\d)\)?$", re.IGNORECASE)
LABELS = {system.label.casefold(): slug for slug, system in SYSTEMS.items()} | {slug: slug for slug in SYSTEMS}


@dataclass(frozen=True)
class PastedJob:
    """`minutes` it likely takes; `guessed` when its length, or what it touches, was not said; `rank` may be empty."""

    title: str
    minutes: int
    systems: tuple[str, ...]
    rank: str
    guessed_length: bool
    guessed_systems: bool


def read_list(text: str, most_minutes: int) -> list[PastedJob]:
    """Each line that says something, in its order; the same title once. ValueError with one sentence and the line."""
    jobs: dict[str, PastedJob] = {}
    for number, line in enumerate(text.splitlines(), 1):
        said = BULLET.sub("", line).strip()
        if not said:
            continue
        try:
            job = _read(said, most_minutes)
        except ValueError as wrong:
            raise ValueError(f"Line {number}: {wrong}") from wrong
        jobs.setdefault(job.title.casefold(), job)
    if len(jobs) > MOST_LINES:
        raise ValueError(f"At most {MOST_LINES} jobs at once.")
    return list(jobs.values())


def _read(line: str, most_minutes: int) -> PastedJob:
    if len(line) > MOST_OF_A_LINE:
        raise ValueError(f"at most {MOST_OF_A_LINE} letters stand in a line.")
    title, *columns = [piece.strip() for piece in COLUMNS.split(line)]
    if not columns and (end := AT_THE_END.search(title)):
        title, columns = title[: end.start()], [end[1]]
    title = " ".join(title.split()).rstrip(",")
    if not title:
        raise ValueError("it does not say what is to be done.")
    if len(title) > MOST_LETTERS:
        raise ValueError(f"at most {MOST_LETTERS} letters say what is to be done.")
    minutes, systems, rank = _columns(filter(None, columns), most_minutes)
    return PastedJob(
        title,
        GUESS if minutes is None else minutes,
        tuple(systems) or systems_said(title),
        rank or ("safety" if hurts_by_words(title) else ""),
        minutes is None,
        not systems,
    )


def _columns(columns: Iterable[str], most_minutes: int) -> tuple[int | None, list[str], str]:
    minutes, systems, rank = None, [], ""
    for column in columns:
        names = [name.strip().casefold() for name in column.split(",")]
        if column.casefold() in RANKS:
            rank = column.casefold()
        elif all(name in LABELS for name in names):
            systems += [LABELS[name] for name in names]
        else:
            minutes = _minutes(column, most_minutes)
    return minutes, list(dict.fromkeys(systems)), rank


def _minutes(column: str, most: int) -> int:
    tidy = re.sub(r"\s*(hours?|h)\b", " h", column, flags=re.IGNORECASE)
    tidy = re.sub(r"\s*(minutes?|mins?|m)$", " min", tidy, flags=re.IGNORECASE)
    try:
        minutes = parse_duration(tidy)
    except ValueError as wrong:
        raise ValueError(f"“{column}” is no length such as 1:30 or 45 min, no part of a car and no rank.") from wrong
    if minutes > most:
        raise ValueError(f"a job takes at most {duration_words(most)}.")
    return minutes


def written_out(title: str, minutes: int, systems: Iterable[str], rank: str) -> str:
    """The line that `read_list` reads as this job."""
    hours, rest = divmod(minutes, 60)
    labels = ", ".join(SYSTEMS[slug].label for slug in systems)
    return "; ".join(filter(None, [title.replace(";", ","), f"{hours}:{rest:02d}", labels, rank]))
