"""Cures and the weather: when a coat or a bead is ready, and when one may go on."""

from builds.engine.cure.catalogue import shipped_products
from builds.engine.cure.days import (
    DayRange,
    daily_temperature,
    heated_hours,
    minutes_since,
    moment_of,
)
from builds.engine.cure.dew_point import (
    MAGNUS_ALDUCHOV_ESKRIDGE,
    MAGNUS_WMO,
    PAINT_LIMITS,
    CoatingLimits,
    CoatingVerdict,
    DewPointError,
    Refusal,
    coating_verdict,
    dew_point,
    relative_humidity,
    water_in_air,
)
from builds.engine.cure.fading import fading
from builds.engine.cure.figures import CureRule, CureTable, ProductError
from builds.engine.cure.maker_time import chart_warnings
from builds.engine.cure.product_dict import product_from_dict, product_to_dict
from builds.engine.cure.products import Product, Stage
from builds.engine.cure.ready_at import cold_minutes, progress, ready_at, ready_table
from builds.engine.cure.recoat import RecoatWindow, recoat_window
from builds.engine.cure.shop import Heat, Reading, shop_temperature
from builds.engine.cure.temperature import Temperature, TemperatureError
from builds.engine.cure.windows import AirReading, DewCourse, allowed_windows

__all__ = [
    "MAGNUS_ALDUCHOV_ESKRIDGE",
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
    "Reading",
    "RecoatWindow",
    "Refusal",
    "Stage",
    "Temperature",
    "TemperatureError",
    "allowed_windows",
    "chart_warnings",
    "coating_verdict",
    "cold_minutes",
    "daily_temperature",
    "dew_point",
    "fading",
    "heated_hours",
    "minutes_since",
    "moment_of",
    "product_from_dict",
    "product_to_dict",
    "progress",
    "ready_at",
    "ready_table",
    "recoat_window",
    "relative_humidity",
    "shipped_products",
    "shop_temperature",
    "water_in_air",
]
