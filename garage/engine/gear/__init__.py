"""Gear with dates on it: what a label says, and how long it is good by a rule."""

from garage.engine.gear.judge import WARNED, GearItem, Judged, judge
from garage.engine.gear.kinds import KINDS, STRUCK_KINDS, USUAL_KINDS, GearKind
from garage.engine.gear.printed import Printed, printed_from, printed_words
from garage.engine.gear.rules import AS_PRINTED, WAYS, DateRule, last_valid_day
from garage.engine.gear.standards import CAUTION, STANDARDS, Standard
from garage.engine.gear.tyre_code import age_years, code_month, week_spans

__all__ = [
    "AS_PRINTED",
    "CAUTION",
    "KINDS",
    "STANDARDS",
    "STRUCK_KINDS",
    "USUAL_KINDS",
    "WARNED",
    "WAYS",
    "DateRule",
    "GearItem",
    "GearKind",
    "Judged",
    "Printed",
    "Standard",
    "age_years",
    "code_month",
    "judge",
    "last_valid_day",
    "printed_from",
    "printed_words",
    "week_spans",
]
