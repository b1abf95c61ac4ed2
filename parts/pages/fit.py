"""What on the shelf fits what was asked for, what does not and why, and what nobody knows."""

from dataclasses import dataclass

from garage.models import Garage
from parts.engine.fit import DOES_NOT, FITS, NOT_KNOWN, read_all, wish, words
from parts.models import Part
from parts.pages.rows import PartRow, rows_of

GROUPS = {FITS: "Fits", NOT_KNOWN: "Not known to fit", DOES_NOT: "Does not fit"}
MOST = 60


@dataclass(frozen=True)
class FitGroup:
    """`more` is how many are not shown."""

    label: str
    rows: tuple[PartRow, ...]
    more: int


@dataclass(frozen=True)
class FitPage:
    """`asked` is what was understood, empty when no size was among the words."""

    asked: str
    groups: tuple[FitGroup, ...]


def load_fit_page(garage: Garage, text: str) -> FitPage:
    """Two queries: every part that says something of the kind asked for, with its verdict.

    Of what does not fit, what somebody may put together by mistake comes first.
    """
    asked = wish(text)
    if not asked.wants:
        return FitPage("", ())
    kinds = {want.kind for want in asked.wants}
    parts = [
        part
        for part in Part.objects.in_garage(garage).kept()
        if part.interfaces and kinds & {interface.kind for interface in read_all(part.interfaces)}
    ]
    rows = rows_of(parts, garage, asked.wants)
    rows.sort(key=lambda row: not (row.fit and row.fit.trap))
    groups = []
    for state, label in GROUPS.items():
        here = [line for line in rows if line.fit and line.fit.state == state]
        if here:
            groups.append(FitGroup(label, tuple(here[:MOST]), len(here[MOST:])))
    return FitPage("; ".join(words(want) for want in asked.wants), tuple(groups))
