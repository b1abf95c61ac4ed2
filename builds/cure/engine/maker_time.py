"""Bonded glass goes by the maker's time: nothing is computed, only warned about."""

from builds.cure.engine.dew_point import water_in_air
from builds.cure.engine.figures import ProductError
from builds.cure.engine.products import Product

CAUTION = "Do not drive on a fresh bonded screen before the maker's time."


def chart_warnings(product: Product, *, celsius: float, humidity: float | None) -> tuple[str, ...]:
    """What to warn of when a maker's time is entered for air at °C and relative humidity (%).

    Empty when the conditions are those of the maker's chart or kinder. The comparison of humidity
    is by the water in the air (g/m³), which is what these products cure with. No time is derived.
    ProductError for a product that is not of this kind; DewPointError for air that cannot be.
    """
    if not product.maker_time_only or product.chart_celsius is None:
        raise ProductError(f"{product.name} does not go by the maker's time alone.")
    warnings = []
    if celsius < product.chart_celsius:
        warnings.append(
            f"{celsius:g} °C is below the {product.chart_celsius:g} °C of the maker's chart: "
            "look up the time for this temperature."
        )
    if humidity is not None and product.chart_humidity is not None:
        water = water_in_air(celsius, humidity)
        charted = water_in_air(product.chart_celsius, product.chart_humidity)
        if water < charted:
            warnings.append(
                f"The air holds {water:.1f} g of water per m³, the maker's chart is for "
                f"{charted:.1f}: it cures slower in drier air."
            )
    return tuple(warnings)
