"""Which of the daily backups stay: the newest of each of the last days, weeks and months."""

import re
from collections.abc import Callable, Iterable, Mapping
from datetime import UTC, datetime

DAYS, WEEKS, MONTHS = 7, 5, 12
NAME = re.compile(r"witness-mark-(daily-)?(\d{8}T\d{6})Z\.zip")
STAMP = "%Y%m%dT%H%M%S"

Span = tuple[int, ...]


def backup_name(at: datetime, *, daily: bool) -> str:
    """The file's name, with its moment in UTC. `at` is aware."""
    return f"witness-mark-{'daily-' if daily else ''}{at.astimezone(UTC):{STAMP}}Z.zip"


def named_moment(name: str) -> tuple[datetime, bool] | None:
    """When a backup was made and whether it is a daily one, by its name; None of any other file."""
    stamped = NAME.fullmatch(name)
    if not stamped:
        return None
    try:
        return datetime.strptime(stamped[2], STAMP).replace(tzinfo=UTC), bool(stamped[1])
    except ValueError:
        return None


def spared(made: Mapping[str, datetime]) -> set[str]:
    """The names that stay: of each of the last 7 days, 5 weeks and 12 months that have one, the newest."""
    newest_first = sorted(made, key=lambda name: (made[name], name), reverse=True)
    spans: Iterable[tuple[int, Callable[[datetime], Span]]] = (
        (DAYS, lambda at: (at.year, at.month, at.day)),
        (WEEKS, lambda at: tuple(at.isocalendar()[:2])),
        (MONTHS, lambda at: (at.year, at.month)),
    )
    return {name for most, span in spans for name in _newest_of_each(newest_first, made, span)[:most]}


def _newest_of_each(
    newest_first: list[str], made: Mapping[str, datetime], span: Callable[[datetime], Span]
) -> list[str]:
    firsts: dict[Span, str] = {}
    for name in newest_first:
        firsts.setdefault(span(made[name]), name)
    return [*firsts.values()]
