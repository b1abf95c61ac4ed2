"""Forms of the shop's temperature: a reading, the days ahead, the hours it is heated."""

from collections.abc import Iterable, Iterator
from datetime import date, timedelta
from typing import Any

from django import forms

from builds.cure.models.shop import COLDEST_MC, WARMEST_MC, ShopDay
from garage.engine.hours import HoursError, parse_day
from garage.forms.edits import EditForm
from garage.forms.quantities import QuantityField
from garage.models import Garage
from garage.models.hours import WEEKDAYS

DAYS_AHEAD = 8
FARTHEST = timedelta(days=366)


def degrees(garage: Garage, label: str, *, required: bool = False, **more: Any) -> QuantityField:
    """A temperature, typed as the garage measures."""
    field = QuantityField("temperature", "m°C", COLDEST_MC, WARMEST_MC, label=label, required=required, **more)
    field.use(garage.units)
    return field


class ReadingForm(forms.Form):
    humidity = forms.IntegerField(
        label="Humidity of the air",
        min_value=1,
        max_value=100,
        required=False,
        help_text="says where the dew point is",
    )
    field_order = ["air_mc", "humidity", "metal_mc"]

    def __init__(self, *args: Any, garage: Garage, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["humidity"].unit = "%"
        self.fields["air_mc"] = degrees(garage, "The thermometer says", required=True)
        self.fields["metal_mc"] = degrees(garage, "The metal itself", help_text="cold steel sweats in warming air")
        self.order_fields(self.field_order)


class DaysForm(EditForm, forms.Form):
    """Either one temperature that stays, or lows and highs of single days."""

    def __init__(self, *args: Any, garage: Garage, today: date, entered: Iterable[ShopDay], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.days = [today + timedelta(days=ahead) for ahead in range(DAYS_AHEAD)]
        known = {shop_day.day: shop_day for shop_day in entered}
        self.fields["held_mc"] = degrees(
            garage, "The same by day and by night", help_text="from today on, instead of the days"
        )
        for day in self.days:
            row = known.get(day)
            self.fields[f"low-{day}"] = degrees(garage, "Low", initial=row and row.low_mc)
            self.fields[f"high-{day}"] = degrees(garage, "High", initial=row and row.high_mc)

    @property
    def rows(self) -> Iterator[tuple[date, forms.BoundField, forms.BoundField]]:
        for day in self.days:
            yield day, self[f"low-{day}"], self[f"high-{day}"]

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        for day in self.days:
            low, high = cleaned.get(f"low-{day}"), cleaned.get(f"high-{day}")
            if self.errors.keys() & {f"low-{day}", f"high-{day}"}:
                continue
            if (low is None) != (high is None):
                missing = "low" if low is None else "high"
                self.add_error(f"{missing}-{day}", "Give both the low and the high, or neither.")
            elif low is not None and low > high:
                self.add_error(f"high-{day}", "The high is not below the low.")
        return cleaned

    def written(self) -> dict[date, tuple[int, int] | None]:
        """Low and high of each day; None for a day without an entry of its own."""
        days: dict[date, tuple[int, int] | None] = {}
        for day in self.days:
            low = self.cleaned_data[f"low-{day}"]
            days[day] = None if low is None else (low, self.cleaned_data[f"high-{day}"])
        return days


class HeatForm(forms.Form):
    weekdays = forms.TypedMultipleChoiceField(
        label="Every",
        choices=list(enumerate(WEEKDAYS)),
        coerce=int,
        widget=forms.CheckboxSelectMultiple({"class": "short"}),
        required=False,
    )
    day = forms.DateField(label="Or on one day", required=False, widget=forms.DateInput({"type": "date"}, "%Y-%m-%d"))
    hours = forms.CharField(
        label="Hours at temperature",
        max_length=60,
        help_text="such as 18:30-22:00: when it is warm, not when the heater goes on",
    )
    field_order = ["warm_mc", "weekdays", "day", "hours"]

    def __init__(self, *args: Any, garage: Garage, today: date, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.today = today
        self.fields["warm_mc"] = degrees(garage, "At least", required=True)
        self.order_fields(self.field_order)

    def clean_day(self) -> date | None:
        day: date | None = self.cleaned_data["day"]
        if day and day < self.today:
            raise forms.ValidationError("That day is over: choose today or a later one.")
        if day and day - self.today > FARTHEST:
            raise forms.ValidationError("That is more than a year away.")
        return day

    def clean_hours(self) -> list[tuple[int, int]]:
        try:
            windows = parse_day(0, self.cleaned_data["hours"])
        except HoursError as wrong:
            raise forms.ValidationError(str(wrong)) from wrong
        return [(window.since, window.until) for window in windows]

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        if "weekdays" in cleaned and "day" in cleaned:
            if cleaned["weekdays"] and cleaned["day"]:
                self.add_error("day", "Choose weekdays or one day, not both.")
            elif not cleaned["weekdays"] and not cleaned["day"]:
                self.add_error("weekdays", "Tick a weekday, or give one day.")
        return cleaned
