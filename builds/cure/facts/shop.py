"""What a garage wrote down of its shop: days, heated hours, what was read off the wall, products."""

from datetime import datetime, timedelta
from functools import cached_property
from zoneinfo import ZoneInfo

from builds.cure.engine import Product
from builds.cure.engine.shop_air import Shop
from builds.cure.engine.temperature import Temperature
from builds.cure.facts.products import products_of
from builds.cure.models.shop import HeatedHours, ShopDay, TemperatureReading
from garage.models import Garage
from garage.remembered import remembered

READ_BACK = timedelta(days=30)


class ShopRows:
    """Asked of the database at first use: a query each, and none where nothing cures."""

    def __init__(self, garage: Garage, at: datetime) -> None:
        self.garage, self.at = garage, at

    @cached_property
    def days(self) -> list[ShopDay]:
        return remembered(self.garage, "shop_days", lambda: list(ShopDay.objects.in_garage(self.garage)))

    @cached_property
    def heated(self) -> list[HeatedHours]:
        return remembered(self.garage, "heated_hours", lambda: list(HeatedHours.objects.in_garage(self.garage)))

    @cached_property
    def readings(self) -> list[TemperatureReading]:
        """Oldest first; those of the last weeks."""
        since = self.at - READ_BACK
        day = since.replace(hour=0, minute=0, second=0, microsecond=0)
        rows = TemperatureReading.objects.in_garage(self.garage).since(day).select_related("by__person")
        kept = remembered(self.garage, ("temperatures", day), lambda: list(rows))
        return [reading for reading in kept if reading.at >= since]

    @cached_property
    def products(self) -> dict[str, Product]:
        return products_of(self.garage)


def shop_of(garage: Garage, at: datetime) -> Shop:
    courses = remembered(garage, "courses", dict[datetime, Temperature])
    return Shop(ShopRows(garage, at), at, ZoneInfo(garage.time_zone), courses=courses)
