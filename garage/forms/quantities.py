"""A field for a figure: typed in the garage's units or with another beside it, kept as whole stored ones."""

from typing import Any

from django import forms

from garage.engine.said import said
from garage.engine.units import (
    UNITS,
    QuantityError,
    convert,
    number_words,
    quantity_words,
    unit_for,
)


class QuantityField(forms.Field):
    """Cleans to an int of `stored` (such as µm) or None; `unit` is drawn beside the figure.

    The form calls `use(system)` with the garage's units before it is drawn or cleaned.
    """

    widget = forms.TextInput

    def __init__(self, quantity: str, stored: str, least: int, most: int, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.quantity, self.stored = quantity, UNITS[stored]
        self.least, self.most = least, most
        self.use("metric")

    def use(self, system: str) -> None:
        self.shown = unit_for(self.quantity, system)
        self.unit = self.shown.symbol

    def widget_attrs(self, widget: forms.Widget) -> dict[str, str]:
        return {**super().widget_attrs(widget), "inputmode": "decimal", "autocomplete": "off"}

    def prepare_value(self, value: Any) -> Any:
        if not isinstance(value, int):
            return value
        return number_words(convert(value, self.stored, self.shown), self.shown.digits)

    def to_python(self, value: Any) -> int | None:
        if value in self.empty_values or not str(value).strip():
            return None
        try:
            amount = round(said(str(value), self.unit, self.stored.symbol))
        except QuantityError as wrong:
            raise forms.ValidationError(str(wrong)) from wrong
        if not self.least <= amount <= self.most:
            low, high = (quantity_words(edge, self.stored, self.shown) for edge in (self.least, self.most))
            raise forms.ValidationError(f"It must lie between {low} and {high}.")
        return amount
