"""What a bench sum asks, what it answers, and what it says of itself."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from builds.bench.frame.drawing import Drawing

Given = Mapping[str, float]
Texts = Mapping[str, str]


class SumError(ValueError):
    """One sentence that says why there is no answer; `asked` is the slug of the figure at fault, if one is."""

    def __init__(self, sentence: str, asked: str = "") -> None:
        super().__init__(sentence)
        self.asked = asked


@dataclass(frozen=True, slots=True)
class Ask:
    """One figure, or one choice, that a sum asks for.

    A figure is typed in `unit` (of `garage.engine.units`, "" for a bare number) or its imperial
    counterpart and given to the sum in `unit`. It lies from `least` to `most`, above `above`,
    and is a `whole` number where it counts things.
    `default` is taken when nothing is typed; without one the figure is `needed` or left out.
    `choices` (slug, label) makes it a choice, `words` a text such as the name of a thread, `lines` a
    text of one thing a line; all of these are given as text. A `slider` goes from `least` to `most`; each line of a
    `what_if` is left out and put back by a tap.
    `example` is what somebody would type. `figure` is what a car keeps it under, "" for what is no
    property of a car; `reading` the `kind.field` of the reading that has it.
    """

    slug: str
    label: str
    unit: str = ""
    example: str = ""
    least: float | None = None
    most: float | None = None
    above: float | None = None
    default: str = ""
    needed: bool = True
    choices: tuple[tuple[str, str], ...] = ()
    whole: bool = False
    words: bool = False
    lines: bool = False
    slider: bool = False
    what_if: bool = False
    note: str = ""
    group: str = ""
    figure: str = ""
    reading: str = ""

    @property
    def is_text(self) -> bool:
        return bool(self.choices) or self.words or self.lines


@dataclass(frozen=True, slots=True)
class Answer:
    """One figure of an answer, in `unit`, shown to `digits` decimals, give or take `give` if that is known.

    `words` stands instead of, or after, a figure that says more as a sentence.
    """

    slug: str
    label: str
    value: float | None
    unit: str = ""
    digits: int = 1
    give: float | None = None
    words: str = ""


@dataclass(frozen=True, slots=True)
class Column:
    """A column of figures: their unit and how many decimals are shown."""

    label: str
    unit: str = ""
    digits: int = 1


@dataclass(frozen=True, slots=True)
class Table:
    """Figures over something, a row each; words where a cell holds no figure."""

    title: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[float | str, ...], ...]


@dataclass(frozen=True, slots=True)
class Worked:
    """What came of a sum: its answers, what must be said loudly, drawings to scale and a table."""

    answers: tuple[Answer, ...]
    drawing: Drawing
    warnings: tuple[str, ...] = ()
    table: Table | None = None
    more_drawings: tuple[Drawing, ...] = ()

    def value(self, slug: str) -> float:
        """The unrounded figure of an answer. KeyError where there is none of that name."""
        for answer in self.answers:
            if answer.slug == slug and answer.value is not None:
                return answer.value
        raise KeyError(slug)


@dataclass(frozen=True, slots=True)
class MeasuredAnswer:
    """An answer (slug) that fields of a reading (slugs) measure: further apart than `within`, in the answer's unit, one
    of the two is wrong."""

    answer: str
    reading: str
    fields: tuple[str, ...]
    within: float


@dataclass(frozen=True, slots=True)
class Offered:
    """Where in the work a sum is offered: beside readings, and on work of these systems (slugs).

    `kinds` are the kinds of work (slugs) that do what it plans: the first of them makes it true, not void. `checks`
    are those of its answers (slugs) that such work is held against afterwards, `measured` those that a reading can
    contradict. `again` where it says how far it is from what was read to what is wanted, so that the next reading says
    how far it is still; not where it asks what a change does, which the next reading has in it already.
    """

    readings: tuple[str, ...] = ()
    kinds: tuple[str, ...] = ()
    systems: tuple[str, ...] = ()
    checks: tuple[str, ...] = ()
    measured: tuple[MeasuredAnswer, ...] = ()
    again: bool = False


@dataclass(frozen=True, slots=True)
class Sum:
    """A sum of the catalogue. `work` takes figures and texts by slug and raises SumError."""

    slug: str
    title: str
    question: str
    asks: tuple[Ask, ...]
    work: Callable[[Given, Texts], Worked]
    formula: tuple[str, ...]
    source: str
    assumes: str
    limits: str
    caution: str
    offered: Offered = field(default_factory=Offered)

    def ask(self, slug: str) -> Ask | None:
        return next((ask for ask in self.asks if ask.slug == slug), None)

    @property
    def example(self) -> dict[str, str]:
        """What somebody would type, by slug."""
        return {ask.slug: ask.example or ask.default for ask in self.asks if ask.example or ask.default}
