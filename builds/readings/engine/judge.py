"""Whether a value is where it should be: in, out, or not judged."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from builds.readings.engine.fields import CHECK, FAIL, PASS, Field

IN, OUT, NOT_JUDGED = "in", "out", "not judged"
JUDGED_LABELS = {IN: "in", OUT: "out", NOT_JUDGED: "not judged"}


@dataclass(frozen=True, slots=True)
class Goal:
    """Between which ends a figure should lie, in stored units; None where it is open."""

    least: int | None
    most: int | None


def judge(field: Field, amount: int | None, goal: Goal | None) -> str:
    """`in`, `out` or `not judged`: a check is in when it passed; a figure needs a goal.

    On an end is in. Amounts in the field's stored units; None is not taken.
    """
    if amount is None:
        return NOT_JUDGED
    if field.type == CHECK:
        return {PASS: IN, FAIL: OUT}.get(amount, NOT_JUDGED)
    if goal is None:
        return NOT_JUDGED
    low = goal.least is not None and amount < goal.least
    high = goal.most is not None and amount > goal.most
    return OUT if low or high else IN


def judge_all(fields: Iterable[Field], amounts: Mapping[str, int | None], goals: Mapping[str, Goal]) -> str:
    """Of a whole reading: out when one value is out, in when one is in and none out."""
    verdicts = {judge(field, amounts.get(field.slug), goals.get(field.slug)) for field in fields}
    return next((judged for judged in (OUT, IN) if judged in verdicts), NOT_JUDGED)
