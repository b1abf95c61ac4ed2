"""Rules for how long gear is good: from its making, or as its label prints."""

from dataclasses import dataclass
from datetime import date

from garage.engine.gear.printed import Printed, end_of_month

WAYS = {
    "printed": "as printed on the label",
    "exact": "so many years to the day",
    "end_of_month": "so many years, to the end of the month",
    "end_of_year": "so many years, to 31 December",
}
MEANINGS = {"made": "made", "until": "not valid after", "serviced": "last serviced"}
MOST_YEARS = 30


@dataclass(frozen=True, slots=True)
class DateRule:
    """`years` from the making or the last service; under `printed`, years granted beyond it.

    ValueError for a way that is not known, or for years outside 0 to 30.
    """

    way: str
    years: int = 0

    def __post_init__(self) -> None:
        if self.way not in WAYS:
            raise ValueError(f"{self.way!r} is not a known rule.")
        if not 0 <= self.years <= MOST_YEARS:
            raise ValueError(f"Between 0 and {MOST_YEARS} years.")


AS_PRINTED = DateRule("printed")


def years_after(day: date, years: int) -> date:
    """The same day so many years on; 29 February becomes the 28th where there is none."""
    try:
        return day.replace(year=day.year + years)
    except ValueError:
        return day.replace(year=day.year + years, day=28)


def counting_rule(meaning: str, rule: DateRule, life: DateRule | None) -> DateRule | None:
    """The rule that decides in the end; None when nothing says how long it is good.

    What a label says it is not valid after does not tell the making: a rule that counts from that
    is `judge`'s to hold against it. Under `printed`, a label that tells only the making goes by
    `life`, the standard's own, with what the rule grants beyond it.
    """
    if meaning == "until":
        return rule if rule.way == "printed" else AS_PRINTED
    if rule.way != "printed":
        return rule
    return DateRule(life.way, min(life.years + rule.years, MOST_YEARS)) if life else None


def last_valid_day(printed: Printed, meaning: str, rule: DateRule, life: DateRule | None = None) -> date | None:
    """The last day on which gear with this date is good; None when nothing says so.

    `meaning` is made, until or serviced; see `counting_rule` for what decides. A month counts to
    its end; a year alone is taken as its January, except to 31 December.
    Source: the ways that organisers differ in, see the standards; exact counts from the printed
    day, and from the end of a printed month.
    """
    counts = counting_rule(meaning, rule, life)
    if counts is None:
        return None
    if counts.way == "printed":
        end = years_after(printed.last, counts.years)
        return end if printed.precision == "day" else end_of_month(end)
    year = printed.on.year + counts.years
    if counts.way == "end_of_year":
        return date(year, 12, 31)
    if counts.way == "exact" and printed.precision == "day":
        return years_after(printed.on, counts.years)
    return end_of_month(date(year, printed.on.month, 1))


def rule_words(rule: DateRule) -> str:
    """`as printed on the label`, `2 years, to 31 December`."""
    if rule.way == "printed":
        more = f", and {rule.years} years more" if rule.years else ""
        return f"{WAYS['printed']}{more}"
    count = f"{rule.years} year{'' if rule.years == 1 else 's'}"
    return WAYS[rule.way].replace("so many years", count)
