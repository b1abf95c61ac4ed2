"""Whether two things fit: they do, they do not because, or it is not known."""

from dataclasses import dataclass

FITS, DOES_NOT, NOT_KNOWN = "fits", "does_not", "not_known"
LABELS = {FITS: "fits", DOES_NOT: "does not fit", NOT_KNOWN: "not known to fit"}


@dataclass(frozen=True, slots=True)
class FitVerdict:
    """`state` is fits, does_not or not_known; `because` one sentence or more, what is missing.

    `trap` when it does not fit and yet goes on: what somebody may put together by mistake.
    `unasked` when all that was asked for fits, and it is not known because not enough was asked.
    """

    state: str
    because: str = ""
    trap: bool = False
    unasked: bool = False

    @property
    def label(self) -> str:
        return LABELS[self.state]

    @property
    def as_asked(self) -> bool:
        """Whether nothing that was asked for is against it: enough to be found, not to be fitted."""
        return self.state == FITS or self.unasked

    @property
    def rank(self) -> int:
        """0 what fits, 1 what is not known, 2 what does not."""
        return (FITS, NOT_KNOWN, DOES_NOT).index(self.state)
