"""When a stage is reached: for one start, for every slot of a plan, and how far it has come."""

import math

from builds.cure.engine.figures import ProductError
from builds.cure.engine.integral import TOLERANCE, cumulative, reached, spans
from builds.cure.engine.products import Product, Stage
from builds.cure.engine.temperature import Temperature


def ready_at(
    product: Product,
    stage: Stage | str,
    start: float,
    temperature: Temperature,
    horizon: float = math.inf,
) -> float | None:
    """The minute at which a product applied at minute `start` has reached a stage.

    start, horizon and the answer count from the temperature's origin, elapsed. None when it is
    not reached by the horizon, by the end of the temperature's course, or ever (too cold).
    Progress is the integral of the rate, zero below the minimum; the stage is reached at 1.
    Exact for held and straight temperatures, within 1e-8 of the cure time for swings.
    Source: cumulative damage (equivalent time) over the data sheet's times. ProductError for a
    stage without figures or a product that goes by the maker's time.
    """
    _check_start(start)
    return reached(product.law(stage), temperature, start, horizon)


def progress(product: Product, stage: Stage | str, start: float, until: float, temperature: Temperature) -> float:
    """Fraction of a stage gained from minute `start` to `until`; 1 and more when it is reached.

    Nothing is counted past the end of the temperature's course. Errors as for ready_at.
    """
    _check_start(start)
    if until <= start:
        return 0.0
    return cumulative(product.law(stage), temperature, (start, until))[-1]


def cold_minutes(product: Product, stage: Stage | str, start: float, until: float, temperature: Temperature) -> float:
    """Minutes between `start` and `until` in which it is too cold for the product to cure.

    A coat that lay below its minimum may never reach its properties, however long it waits: a
    reason to warn. Errors as for ready_at.
    """
    _check_start(start)
    law = product.law(stage)
    return math.fsum(end - begin for begin, end, _, bracket in spans(law, temperature, start, until) if bracket is None)


def ready_table(
    product: Product,
    stage: Stage | str,
    temperature: Temperature,
    *,
    slot_minutes: int,
    slots: int,
) -> list[int]:
    """For each slot k = 0 … slots: the earliest slot at which what waits for the cure may start.

    Slot k begins at minute k · slot_minutes; a job whose `end` is k was done at that moment, and
    the cure starts there. Entries never fall as k grows, none is below k, and slots + 1 stands for
    "not within the horizon". One pass over the slots. Errors as for ready_at; ValueError for a
    slot length or a horizon that is not positive.
    """
    if slot_minutes <= 0 or slots <= 0:
        raise ValueError("A plan needs slots of some length.")
    minutes = [float(k * slot_minutes) for k in range(slots + 1)]
    gained = cumulative(product.law(stage), temperature, minutes)
    table, ready = [], 0
    for so_far in gained:
        while ready <= slots and gained[ready] < so_far + 1 - TOLERANCE:
            ready += 1
        table.append(ready)
    return table


def _check_start(start: float) -> None:
    if not math.isfinite(start):
        raise ProductError("A cure needs the moment at which it started.")
