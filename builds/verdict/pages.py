"""The verdict on pages and sheets: where a reason is cleared, and what heads every sheet."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from zoneinfo import ZoneInfo

from django.urls import reverse

from builds.steps.engine.cautions import standing_caution
from builds.verdict.engine import Reason, Verdict
from builds.verdict.facts.verdict import verdicts
from garage.engine.moments import paper_words
from garage.models import Garage, Vehicle
from garage.public import public

# Where a reason of each kind is cleared; what is not named here, on the car's page.
PAGES = {
    "job": "job_page",
    "check": "check_list",
    "joint": "joint_list",
    "reading": "reading_list",
    "limit": "target_offers",
    "gear": "gear_page",
    "gear_needed": "gear_needed",
    "part": "part_page",
}
# Letters that a list of names in a head may take: a page must have room below it.
ROOM = 90


@dataclass(frozen=True)
class SheetHead:
    """Everything in words; `address` is where the code leads."""

    garage: str
    paper: str
    computed: str
    verdict: str
    standing: str
    address: str


def head_of(garage: Garage, at: datetime, cars: Iterable[Vehicle], path: str) -> SheetHead:
    """Of a sheet whose title names no car. As many queries for one car as for fifty, and none for no car."""
    named = {car.pk: car.name for car in cars}
    judged = verdicts(garage, at, cars) if named else {}
    return head_with(garage, at, {named[pk]: verdict for pk, verdict in judged.items()}, path, names=True)


def head_with(garage: Garage, at: datetime, judged: dict[str, Verdict], path: str, *, names: bool = False) -> SheetHead:
    """Of cars whose verdicts are at hand, by name; `names` as of `verdict_words`."""
    return SheetHead(
        garage.name,
        garage.paper,
        paper_words(at, ZoneInfo(garage.time_zone)),
        verdict_words(judged, names=names),
        standing_caution(),
        public(path),
    )


def verdict_words(judged: dict[str, Verdict], *, names: bool = False) -> str:
    """Of one car its sentence, with its name where `names`; of several which are what, each with how many things
    stand in it."""
    stops = [name for name, verdict in judged.items() if verdict.do_not_drive]
    if len(judged) == 1:
        ((name, only),) = judged.items()
        first = [*(["DO NOT DRIVE"] if stops else []), *([name] if names else [])]
        return f"{': '.join(first)}. {only.sentence}." if first else f"{only.sentence}."
    groups = {
        "DO NOT DRIVE": stops,
        "Not fit to run": [
            f"{name} ({len(verdict.reasons)})" for name, verdict in judged.items() if verdict.state == "not_fit"
        ],
        "Not known to be fit": [name for name, verdict in judged.items() if verdict.state == "not_known"],
        "Fit to run": [_fit(name, verdict) for name, verdict in judged.items() if verdict.state == "fit"],
    }
    return " ".join(f"{words}: {_few(names)}." for words, names in groups.items() if names)


def _fit(name: str, verdict: Verdict) -> str:
    besides = verdict.besides.rstrip(".")
    return f"{name} ({besides[0].lower()}{besides[1:]})" if besides else name


def _few(names: list[str]) -> str:
    """As many as a head has room for, at least one, and how many more."""
    shown = [name for number, name in enumerate(names) if len(", ".join(names[: number + 1])) <= ROOM] or names[:1]
    more = len(names) - len(shown)
    return ", ".join(shown) + (f" and {more} more" if more else "")


def reason_url(reason: Reason) -> str:
    return reverse(PAGES.get(reason.kind, "vehicle_page"), args=[reason.ref])
