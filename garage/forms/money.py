"""A field for an amount of money in the garage's currency."""

from typing import Any

from django import forms

from garage.engine.money import MoneyError, parse_money


class MoneyField(forms.CharField):
    """Cleans to whole minor units or None."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(max_length=14, **kwargs)

    def widget_attrs(self, widget: forms.Widget) -> dict[str, str]:
        return {**super().widget_attrs(widget), "inputmode": "decimal", "autocomplete": "off"}

    def clean(self, value: Any) -> int | None:
        text = super().clean(value)
        if not text:
            return None
        try:
            return parse_money(text)
        except MoneyError as wrong:
            raise forms.ValidationError(str(wrong)) from wrong

    def prepare_value(self, value: Any) -> Any:
        return f"{value // 100}.{value % 100:02d}" if isinstance(value, int) else value
