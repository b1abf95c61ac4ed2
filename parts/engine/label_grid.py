"""Label sheets as data: where each label lies on the paper, and how many sheets a pile takes."""

from dataclasses import dataclass

# Width and height of the papers, mm: A4 as in ISO 216, Letter as 8½ × 11 in of 25.4 mm.
PAPER_MM = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
# What a printer cannot reach, or a ruler cannot read, is no room for a label.
ROUNDING_MM = 0.05


class GridError(ValueError):
    """A sheet that its paper cannot hold, or a label that the sheet does not have."""


@dataclass(frozen=True)
class Grid:
    """Rows and columns of equal labels; all lengths in mm.

    `left` and `top` lead from the paper's corner to the first label, `across` and `down` from one
    label's corner to that of the next; `plain` is paper without labels on it, to be cut.
    Raises GridError where labels overlap or leave the paper.
    """

    slug: str
    paper: str
    columns: int
    rows: int
    width: float
    height: float
    left: float
    top: float
    across: float
    down: float
    plain: bool = False

    def __post_init__(self) -> None:
        if self.columns < 1 or self.rows < 1 or self.paper not in PAPER_MM:
            raise GridError(f"{self.slug} is no sheet of labels.")
        if (self.columns > 1 and self.across + ROUNDING_MM < self.width) or (
            self.rows > 1 and self.down + ROUNDING_MM < self.height
        ):
            raise GridError(f"The labels of {self.slug} overlap.")
        wide, tall = PAPER_MM[self.paper]
        right = self.left + (self.columns - 1) * self.across + self.width
        bottom = self.top + (self.rows - 1) * self.down + self.height
        if min(self.left, self.top) < 0 or right > wide + ROUNDING_MM or bottom > tall + ROUNDING_MM:
            raise GridError(f"{self.slug} is larger than its paper.")

    @property
    def each(self) -> int:
        """Labels on one sheet."""
        return self.columns * self.rows

    @property
    def words(self) -> str:
        """`A4, 21 labels of 63.5 × 38.1 mm, 3 across`."""
        paper = {"a4": "A4", "letter": "Letter"}[self.paper]
        kind = "plain paper, to cut:" if self.plain else ""
        size = f"{self.width:g} × {self.height:g} mm"
        return " ".join(filter(None, [f"{paper},", kind, f"{self.each} labels of {size}, {self.columns} across"]))


@dataclass(frozen=True)
class LabelSpot:
    """One label on its sheet, mm from the paper's upper left corner."""

    x: float
    y: float
    width: float
    height: float


# Common sizes of label sheets, from memory: no source. The calibration page is there to be held
# against the sheet that somebody really has, and `moved` takes up what is off.
GRIDS = (
    Grid("a4-plain", "a4", 2, 5, 95, 55.4, 10, 10, 95, 55.4, plain=True),
    Grid("a4-8", "a4", 2, 4, 99.1, 67.7, 4.65, 13.1, 101.6, 67.7),
    Grid("a4-14", "a4", 2, 7, 99.1, 38.1, 4.65, 15.15, 101.6, 38.1),
    Grid("a4-21", "a4", 3, 7, 63.5, 38.1, 7.25, 15.15, 66, 38.1),
    Grid("a4-24", "a4", 3, 8, 70, 37, 0, 0.5, 70, 37),
    Grid("letter-plain", "letter", 2, 5, 97.5, 51.8, 10.4, 10.2, 97.5, 51.8, plain=True),
    Grid("letter-6", "letter", 2, 3, 101.6, 84.6, 4, 12.7, 106.3, 84.6),
    Grid("letter-10", "letter", 2, 5, 101.6, 50.8, 4, 12.7, 106.3, 50.8),
    Grid("letter-30", "letter", 3, 10, 66.7, 25.4, 4.8, 12.7, 69.85, 25.4),
)
BY_SLUG = {grid.slug: grid for grid in GRIDS}


def spot(grid: Grid, number: int) -> LabelSpot:
    """Where label `number` lies, from 1 along the rows. Raises GridError beyond the last."""
    if not 1 <= number <= grid.each:
        raise GridError(f"This sheet has labels 1 to {grid.each}.")
    row, column = divmod(number - 1, grid.columns)
    return LabelSpot(grid.left + column * grid.across, grid.top + row * grid.down, grid.width, grid.height)


def lay(grid: Grid, labels: int, start: int = 1) -> tuple[tuple[LabelSpot, ...], ...]:
    """The spots of so many labels, sheet by sheet; the first sheet is used from label `start` on.

    No sheet at all for no labels. Raises GridError for a start that the sheet does not have.
    """
    spot(grid, start)
    numbers = range(start - 1, start - 1 + labels)
    sheets: dict[int, list[LabelSpot]] = {}
    for number in numbers:
        page, index = divmod(number, grid.each)
        sheets.setdefault(page, []).append(spot(grid, index + 1))
    return tuple(tuple(spots) for spots in sheets.values())
