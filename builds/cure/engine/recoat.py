"""The recoat window: from when the next coat may go on, and until when it needs no sanding."""

import math
from dataclasses import dataclass

from builds.cure.engine.products import Product, Stage
from builds.cure.engine.ready_at import ready_at
from builds.cure.engine.temperature import Temperature

TOO_SOON = "Too soon for the next coat."
OPEN = "The next coat may go on."
SAND_FIRST = "The recoat window has closed: sand first, then coat."


@dataclass(frozen=True, slots=True)
class RecoatWindow:
    """Minutes from the temperature's origin at which it opens and closes.

    opens None: not within what is known of the temperature. closes None: the product sets no end,
    or it lies beyond what is known.
    """

    opens: float | None
    closes: float | None

    @property
    def never(self) -> bool:
        """It closes before it opens: too cold to be ready in time, so it is sanded in any case."""
        return self.closes is not None and (self.opens is None or self.closes <= self.opens)

    def is_shut(self, minute: float) -> bool:
        """Whether a coat at that minute needs the one below sanded first."""
        return self.closes is not None and minute >= self.closes

    def words(self, minute: float) -> str:
        """The state of the window at a minute, as a sentence."""
        if self.is_shut(minute):
            return SAND_FIRST
        if self.opens is None or minute < self.opens:
            return TOO_SOON
        return OPEN


def recoat_window(product: Product, start: float, temperature: Temperature, horizon: float = math.inf) -> RecoatWindow:
    """The recoat window of a coat applied at minute `start`.

    The end of the window does not pause in the cold, as the opening does: it is never told longer
    than the data sheet's longest. Errors as for `ready_at`; a product without a recoat time is
    refused, one without an end of it is not.
    """
    opens = ready_at(product, Stage.RECOAT_FROM, start, temperature, horizon)
    if not product.has(Stage.RECOAT_TO):
        return RecoatWindow(opens, None)
    return RecoatWindow(opens, ready_at(product, Stage.RECOAT_TO, start, temperature, horizon))
