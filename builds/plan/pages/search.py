"""A search for a better plan as the page shows it: how far, how good, what it has gained."""

from dataclasses import dataclass
from datetime import datetime

from builds.plan.models import Search

NAMES = ("missed events", "late safety work", "late needed work", "late wanted work")


@dataclass(frozen=True)
class SearchView:
    """`running` is False for one that ended or was not heard of for too long."""

    search: Search
    running: bool
    done: int
    of: int
    text: str
    note: str = ""


def score_words(score: list[float]) -> str:
    """What is wrong with a plan of this score, by the weights it counts in."""
    wrong = [f"{name} {value:g}" for name, value in zip(NAMES, score[:4], strict=False) if value]
    return ", ".join(wrong) if wrong else "nothing late"


def gain_words(first: list[float], best: list[float]) -> str:
    """The first part of the score that became better, or nothing."""
    for name, was, now in zip(NAMES, first[:4], best[:4], strict=False):
        if was != now:
            return f"{name} {now:g} instead of {was:g}"
    return "jobs end sooner on the whole" if first and best and best[-1] < first[-1] else ""


def search_view(search: Search, at: datetime) -> SearchView:
    running = search.is_running(at)
    spent = max(0.0, (search.seen_at - search.began_at).total_seconds())
    first, best = search.first_score or [], search.best_score or []
    gain = gain_words(first, best)
    tried = f"{search.tried:,} plan{'s' * (search.tried != 1)}"
    text = f"{tried} tried; best so far: {score_words(best)}"
    return SearchView(
        search,
        running,
        done=min(round(spent), round(search.budget_seconds)),
        of=round(search.budget_seconds),
        text="It waits for its turn." if not search.tried else f"{text}. Gained: {gain}." if gain else f"{text}.",
        note="" if running else _note(search, tried, gain),
    )


def _note(search: Search, tried: str, gain: str) -> str:
    if search.failed:
        return search.failed
    if search.ended_at is None:
        return "The last search stopped answering: start another."
    if not gain:
        return f"The search tried {tried} and found none that is better."
    return f"The search tried {tried} and found a better one: {gain}."
