"""Cures and the weather: when a coat or a bead is ready, and when one may go on."""

from builds.cure.engine.catalogue import shipped_products
from builds.cure.engine.days import (
    DayRange,
    daily_temperature,
    minutes_since,
)
from builds.cure.engine.dew_point import (
    MAGNUS_WMO,
    PAINT_LIMITS,
    CoatingLimits,
    CoatingVerdict,
    DewPointError,
    Refusal,
    dew_point,
    relative_humidity,
    water_in_air,
)
from builds.cure.engine.fading import fading
from builds.cure.engine.figures import CureRule, CureTable, ProductError
from builds.cure.engine.maker_time import chart_warnings
from builds.cure.engine.product_dict import product_from_dict, product_to_dict
from builds.cure.engine.products import Product, Stage
from builds.cure.engine.ready_at import cold_minutes, progress, ready_at, ready_table
from builds.cure.engine.shop import Heat, ShopReading, shop_temperature
from builds.cure.engine.temperature import Temperature, TemperatureError
from builds.cure.engine.windows import AirReading, DewCourse, allowed_windows

__all__ = [
    "MAGNUS_WMO",
    "PAINT_LIMITS",
    "AirReading",
    "CoatingLimits",
    "CoatingVerdict",
    "CureRule",
    "CureTable",
    "DayRange",
    "DewCourse",
    "DewPointError",
    "Heat",
    "Product",
    "ProductError",
    "Refusal",
    "ShopReading",
    "Stage",
    "Temperature",
    "TemperatureError",
    "allowed_windows",
    "chart_warnings",
    "cold_minutes",
    "daily_temperature",
    "dew_point",
    "fading",
    "minutes_since",
    "product_from_dict",
    "product_to_dict",
    "progress",
    "ready_at",
    "ready_table",
    "relative_humidity",
    "shipped_products",
    "shop_temperature",
    "water_in_air",
]
