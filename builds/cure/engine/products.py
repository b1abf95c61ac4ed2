"""What hardens: a product, its stages in order, and what its data sheet asks of the weather."""

import re
from dataclasses import dataclass
from enum import StrEnum

from builds.cure.engine.dew_point import CoatingLimits
from builds.cure.engine.figures import CureRule, CureTable, Figures, ProductError, check_celsius
from builds.cure.engine.rates import MINUTES_PER_HOUR, Law, law_of

_SLUG = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")


class Stage(StrEnum):
    """What a product can be ready for, in the order in which a page lists them."""

    TOUCH = "touch"
    RECOAT_FROM = "recoat_from"
    RECOAT_TO = "recoat_to"
    HANDLE = "handle"
    FULL = "full"

    @property
    def words(self) -> str:
        return _WORDS[self]


_WORDS = {
    Stage.TOUCH: "dry to the touch",
    Stage.RECOAT_FROM: "ready for the next coat",
    Stage.RECOAT_TO: "past its time for another coat without sanding",
    Stage.HANDLE: "ready to handle",
    Stage.FULL: "fully cured",
}

# Touch and recoat stand in no order: some primers take the next coat before they are touch dry.
_NEVER_AFTER = (
    (Stage.TOUCH, Stage.HANDLE),
    (Stage.HANDLE, Stage.FULL),
    (Stage.TOUCH, Stage.FULL),
    (Stage.RECOAT_FROM, Stage.RECOAT_TO),
)


@dataclass(frozen=True, slots=True)
class Product:
    """A product and, stage by stage, the figures of its data sheet.

    minimum: °C below which it does not cure; see `rates.law_of` for what happens at the edges.
    dew_margin: °C the metal must be above the dew point to apply it; humidity: % the air must stay
    below; None where it does not matter. maker_time_only: never computed (bonded glass);
    chart_celsius (°C) and chart_humidity (%) are the conditions the maker's time holds for.
    ProductError, in one sentence, for whatever does not fit together.
    """

    slug: str
    name: str
    stages: tuple[tuple[Stage, Figures], ...] = ()
    minimum: float | None = None
    dew_margin: float | None = None
    humidity: float | None = None
    maker_time_only: bool = False
    chart_celsius: float | None = None
    chart_humidity: float | None = None
    source: str = ""
    note: str = ""

    def __post_init__(self) -> None:
        if not _SLUG.fullmatch(self.slug):
            raise ProductError(f"“{self.slug}” is no short name: use small letters, digits and hyphens.")
        if not self.name.strip():
            raise ProductError("A product needs a name.")
        self._check_weather()
        self._check_stages()

    def _check_weather(self) -> None:
        if self.minimum is not None:
            check_celsius(self.minimum)
        if self.dew_margin is not None and not 0 <= self.dew_margin <= 20:
            raise ProductError("The margin above the dew point must lie between 0 and 20 °C.")
        for humidity in (self.humidity, self.chart_humidity):
            if humidity is not None and not 0 < humidity <= 100:
                raise ProductError("A humidity must lie above 0 and at most at 100 %.")

    def _check_stages(self) -> None:
        order = [list(Stage).index(stage) for stage, _ in self.stages]
        if order != sorted(set(order)):
            raise ProductError(f"{self.name} names a stage twice or lists its stages out of order.")
        if self.maker_time_only:
            self._check_chart()
        elif not self.stages:
            raise ProductError(f"{self.name} needs the time of at least one stage.")
        for _, figures in self.stages:
            if isinstance(figures, CureRule):
                self._check_rule(figures)
        for sooner, later in _NEVER_AFTER:
            if self.has(sooner) and self.has(later):
                self._check_order(sooner, later)

    def _check_chart(self) -> None:
        if self.stages:
            raise ProductError(f"{self.name} goes by the maker's time alone and has no stages.")
        if self.chart_celsius is None:
            raise ProductError(f"{self.name} needs the temperature that its maker's chart is for.")
        check_celsius(self.chart_celsius)

    def _check_rule(self, rule: CureRule) -> None:
        if rule.factor > 1 and self.minimum is None:
            raise ProductError(f"{self.name} needs a minimum temperature, below which it does not cure.")
        if self.minimum is not None and self.minimum > rule.celsius:
            raise ProductError(
                f"{self.name} has a time for {rule.celsius:g} °C, below its minimum of {self.minimum:g} °C."
            )

    def _check_order(self, sooner: Stage, later: Stage) -> None:
        for celsius in self._named_temperatures(sooner) | self._named_temperatures(later):
            first, second = self.hours_at(sooner, celsius), self.hours_at(later, celsius)
            if first is not None and second is not None and first > second * (1 + 1e-9):
                raise ProductError(
                    f"{self.name} at {celsius:g} °C is {later.words} after {second:.3g} h, "
                    f"before it is {sooner.words} after {first:.3g} h."
                )

    def _named_temperatures(self, stage: Stage) -> set[float]:
        figures = self.figures(stage)
        if isinstance(figures, CureTable):
            named = {self.minimum, *figures.celsius}
        else:
            named = {self.minimum, figures.celsius, figures.highest}
        return {celsius for celsius in named if celsius is not None}

    @property
    def limits(self) -> CoatingLimits:
        """What the weather must be for a coat of it to go on."""
        return CoatingLimits(self.minimum, self.dew_margin, self.humidity)

    def has(self, stage: Stage | str) -> bool:
        return any(known == stage for known, _ in self.stages)

    def figures(self, stage: Stage | str) -> Figures:
        """A stage's figures; ProductError when it has none, or goes by the maker's time."""
        if self.maker_time_only:
            raise ProductError(
                f"{self.name} is never computed: enter the maker's time for the temperature and humidity you have."
            )
        for known, figures in self.stages:
            if known == stage:
                return figures
        raise ProductError(f"{self.name} has no time for “{stage}”; add it from the data sheet.")

    def law(self, stage: Stage | str) -> Law:
        """The rate law of a stage (per minute); ProductError as for `figures`.

        The end of a recoat window does not wait for warmth: see pauses in `rates.law_of`.
        """
        return law_of(self.figures(stage), self.minimum, pauses=stage != Stage.RECOAT_TO)

    def hours_at(self, stage: Stage | str, celsius: float) -> float | None:
        """Hours to a stage at a steady temperature (°C); None where it does not cure at all."""
        rate = self.law(stage).rate(celsius)
        return 1 / (rate * MINUTES_PER_HOUR) if rate else None
