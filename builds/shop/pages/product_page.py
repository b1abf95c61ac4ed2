"""What a product's page says: its stages, and how long they take in the shop as it is now."""

from dataclasses import dataclass
from datetime import datetime

from builds.cure.engine import CureRule, Product, chart_warnings
from builds.cure.engine.air import air_now
from builds.cure.engine.degrees import degrees_words, gap_words
from builds.cure.engine.figures import Figures
from builds.cure.engine.maker_time import CAUTION
from builds.cure.engine.sheet_line import line_words
from builds.cure.facts.shop import shop_of
from builds.work.engine.blocks import ready_words
from builds.work.engine.cure_times import CureTimes
from garage.engine.units import Unit, unit_for
from garage.models import Garage


@dataclass(frozen=True)
class StageLine:
    """`sheet` is the line of the data sheet, `now` when it is reached by what goes on now."""

    words: str
    sheet: str
    now: str


@dataclass(frozen=True)
class ProductView:
    stages: tuple[StageLine, ...]
    limits: tuple[tuple[str, str], ...]
    warnings: tuple[str, ...]


def product_view(product: Product, garage: Garage, at: datetime) -> ProductView:
    times, unit = CureTimes(shop_of(garage, at)), unit_for("temperature", garage.units)
    return ProductView(
        tuple(
            StageLine(
                f"{stage.words[0].upper()}{stage.words[1:]}",
                _sheet(figures, unit),
                ready_words(times.reached(product, stage, at), at, times.shop.zone).removeprefix("ready "),
            )
            for stage, figures in product.stages
        ),
        tuple(_limits(product, unit)),
        maker_warnings(product, times),
    )


def maker_warnings(product: Product, times: CureTimes) -> tuple[str, ...]:
    """Before a time is entered for what is never computed, and afterwards."""
    if not product.maker_time_only:
        return ()
    air = air_now(times.shop)
    return (CAUTION, *chart_warnings(product, celsius=round(air.celsius, 1), humidity=air.humidity))


def _sheet(figures: Figures, unit: Unit) -> str:
    words = line_words(figures, unit)
    if not isinstance(figures, CureRule):
        return words
    if figures.factor == 1:
        return f"{words} at any temperature"
    return f"{words}, {figures.factor:g} times faster for 10 °C more"


def _limits(product: Product, unit: Unit) -> list[tuple[str, str]]:
    limits = []
    if product.minimum is not None:
        limits.append(("Does not cure below", degrees_words(product.minimum, unit)))
    if product.dew_margin is not None:
        limits.append(("Metal above the dew point by", gap_words(product.dew_margin, unit)))
    if product.humidity is not None:
        limits.append(("Air below", f"{product.humidity:g} %"))
    if product.chart_celsius is not None:
        limits.append(("The maker's chart is for", degrees_words(product.chart_celsius, unit)))
    if product.chart_humidity is not None:
        limits.append(("and air at", f"{product.chart_humidity:g} %"))
    return limits
