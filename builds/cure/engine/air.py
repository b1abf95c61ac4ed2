"""The air of the shop as it is now: read off the wall, or as it is expected to be."""

from dataclasses import dataclass
from datetime import datetime, timedelta

from builds.cure.engine.degrees import celsius
from builds.cure.engine.dew_point import dew_point, relative_humidity
from builds.cure.engine.shop_air import Shop

FRESH = timedelta(hours=1)  # how long a reading says what it is like now


@dataclass(frozen=True)
class Air:
    """°C of the air and of the metal, % relative humidity and °C of dew point where known.

    `steel` None: nobody measured the metal.
    """

    celsius: float
    steel: float | None
    humidity: float | None
    dew: float | None
    read_at: datetime | None = None


def air_now(shop: Shop) -> Air:
    """As it was just read, else as it is expected to be."""
    newest = shop.newest
    if newest is not None and shop.at - newest.at <= FRESH:
        air = celsius(newest.air_mc)
        steel = None if newest.metal_mc is None else celsius(newest.metal_mc)
        if newest.humidity is not None:
            dew = dew_point(air, newest.humidity)
            return Air(air, steel, newest.humidity, dew, newest.at)
        return _with_dew(air, steel, shop, newest.at)
    air = shop.at_moment(shop.at)
    return _with_dew(air, None, shop, None)


def _with_dew(air: float, steel: float | None, shop: Shop, read_at: datetime | None) -> Air:
    if shop.dew is None:
        return Air(air, steel, None, None, read_at)
    dew = shop.dew.at(shop.minute(shop.at))
    return Air(air, steel, relative_humidity(air, dew), dew, read_at)
