"""The photos of a car as a story on paper: day by day, two beside each other, before and after in pairs."""

from collections.abc import Sequence

from reportlab.lib.units import mm
from reportlab.platypus import Flowable

from builds.paper.pages.story_sheet import PrintedPhoto, SceneRows, StorySheet
from builds.verdict.sheet import running
from garage.sheets.frame import sheet
from garage.sheets.kit import line, nothing, part, runs

HIGH = 60 * mm  # three rows to a page
GAP = 6 * mm


def story_sheet(rows: StorySheet) -> bytes:
    """The sheet as PDF bytes."""
    head = running(rows.head, f"{rows.car} in photos", rows.what, rows.part)
    return sheet(lambda: _story(rows), head, rows.head.paper, spares=False)


def _story(rows: StorySheet) -> list[Flowable]:
    story: list[Flowable] = []
    for day, scenes in rows.days:
        story += part(day, [piece for scene in scenes for piece in _scene(scene)])
    return story or nothing("No photo of it yet.")


def _scene(scene: SceneRows) -> list[Flowable | list[Flowable]]:
    """Its title stays with the first of its pictures."""
    twos = [scene.pictures[begin : begin + 2] for begin in range(0, len(scene.pictures), 2)]
    first, *others = [PictureRow(pictures) for pictures in ([scene.pair] if scene.pair else []) + twos]
    return [[line(scene.title, "bold"), first], *others]


class PictureRow(Flowable):
    """One photo, or two beside each other, each with its words below it."""

    def __init__(self, pictures: Sequence[PrintedPhoto]) -> None:
        super().__init__()
        self.pictures = pictures
        self.words = [
            runs([(picture.when, "bold"), (picture.caption, ""), (picture.taken, "fine")], "small")
            for picture in pictures
        ]

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        self.each = (width - GAP) / 2
        self.sizes = [self._size(*picture.size) for picture in self.pictures]
        self.tall = max(tall for _, tall in self.sizes)
        below = max(words.wrap(self.each, height)[1] for words in self.words)
        self.width, self.height = width, 2 * mm + self.tall + 1 * mm + below + 3 * mm
        return width, self.height

    def _size(self, wide: int, tall: int) -> tuple[float, float]:
        """In points, as large as there is room."""
        scale = min(self.each / wide, HIGH / tall)
        return wide * scale, tall * scale

    def draw(self) -> None:
        """Each file goes in as it is: opening it as a picture would keep all of its pixels until the end."""
        top = self.height - 2 * mm
        left = 0.0
        for picture, words, (wide, tall) in zip(self.pictures, self.words, self.sizes, strict=True):
            if picture.file.is_file():
                self.canv.drawImage(str(picture.file), left, top - tall, wide, tall)
            else:
                self._lost(left, top, wide, tall)
            words.drawOn(self.canv, left, top - self.tall - 1 * mm - words.height)
            left += self.each + GAP

    def _lost(self, left: float, top: float, wide: float, tall: float) -> None:
        self.canv.rect(left, top - tall, wide, tall)
        said = line("The file of this photo is not here.", "small")
        said.wrap(max(wide - 6 * mm, 20 * mm), tall)
        said.drawOn(self.canv, left + 3 * mm, top - 3 * mm - said.height)
