"""A piece of gear on a day, by a rule: good, soon out, out, undated or struck."""

from dataclasses import dataclass
from datetime import date, timedelta

from garage.engine.gear.kinds import KINDS
from garage.engine.gear.printed import Printed, printed_words
from garage.engine.gear.rules import MEANINGS, DateRule, counting_rule, last_valid_day, rule_words
from garage.engine.gear.standards import STANDARDS
from garage.engine.moments import date_words

WARNED = timedelta(days=60)
ORDER = ("struck", "undated", "out", "due", "soon", "good")


@dataclass(frozen=True, slots=True)
class GearItem:
    """What is on record of one piece; `printed` None while nobody has entered its date.

    `made` is when it was made, where the label says that besides until when it is valid.
    """

    kind: str
    standard: str = ""
    printed: Printed | None = None
    meaning: str = "made"
    struck: bool = False
    made: Printed | None = None

    @property
    def life(self) -> DateRule | None:
        standard = STANDARDS.get(self.standard)
        return standard.life if standard else None


@dataclass(frozen=True, slots=True)
class Judged:
    """`state` is one of `ORDER`; `last_day` None when no day ends it or none is known."""

    state: str
    last_day: date | None
    sentence: str

    @property
    def passes(self) -> bool:
        return self.state in ("good", "soon")

    @property
    def order(self) -> tuple[int, date]:
        """Sorts the worst state first, then what runs out first."""
        return ORDER.index(self.state), self.last_day or date.max


def judge(item: GearItem, rule: DateRule, day: date) -> Judged:
    """How gear stands on a day: struck before all else, then undated, then by its last day.

    What the label says and what the rule counts from the making both hold: the sooner wins, and
    while the making is not known nobody knows. Nothing passes for want of a date. Only kinds whose
    labels set no end (tyres) pass on a date alone when nothing says how long they last. KeyError
    for a kind that is not known.
    Warned 60 days ahead: common practice, no source.
    """
    if item.struck:
        return Judged("struck", None, f"Went through a crash: {KINDS[item.kind].after_crash}, whatever its date.")
    if item.printed is None:
        return Judged("undated", None, "No date is on record.")
    last = last_valid_day(item.printed, item.meaning, rule, item.life)
    printed = f"{MEANINGS[item.meaning].capitalize()} {printed_words(item.printed)}"
    if item.meaning != "until" and item.printed.on > day:
        return Judged("undated", None, f"{printed}: that is after the day it is judged for.")
    if last is None and KINDS[item.kind].endless and rule.way == "printed":
        return Judged("good", None, f"{printed}; no date ends it.")
    if last is None:
        return Judged("undated", None, f"{printed}, but nothing says how long it is good.")
    return _until(item, rule, last, printed, day)


def _until(item: GearItem, rule: DateRule, last: date, printed: str, day: date) -> Judged:
    """By the last day that the label gives, and by the rule's own where that comes sooner."""
    by = rule_words(counting_rule(item.meaning, rule, item.life) or rule)
    if item.meaning == "until" and rule.way != "printed":
        by_rule = last_valid_day(item.made, "made", rule) if item.made else None
        if by_rule is None and last >= day:
            wanted = f"the event counts {rule_words(rule)} from the making"
            return Judged("undated", last, f"{printed}, but {wanted}, and when it was made is not on record.")
        if by_rule is not None and by_rule < last:
            last, by = by_rule, rule_words(rule)
    if rule.way == "printed" and item.meaning != "until":
        by += ", as commonly held for its standard"
    if last < day:
        return Judged("out", last, f"Ran out on {date_words(last)}, {by}.")
    if last - day <= WARNED:
        return Judged("soon", last, f"Runs out on {date_words(last)}, {by}.")
    return Judged("good", last, f"Good until {date_words(last)}, {by}.")
