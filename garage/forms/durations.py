"""A field for amounts of time, typed as people say them."""

from typing import Any

from django import forms

from garage.engine.words import duration_words, parse_duration


class DurationField(forms.CharField):
    """Whole minutes from `1.5` (hours), `1:30`, `90 min`, `1 h 30`."""

    def __init__(self, *, most: int, least: int = 0, **kwargs: Any) -> None:
        self.most, self.least = most, least
        super().__init__(max_length=20, **kwargs)

    def widget_attrs(self, widget: forms.Widget) -> dict[str, str]:
        return {**super().widget_attrs(widget), "autocomplete": "off", "size": "8"}

    def clean(self, value: Any) -> int | None:
        text = super().clean(value)
        if not text:
            return None
        try:
            minutes = parse_duration(text)
        except ValueError as wrong:
            raise forms.ValidationError(str(wrong)) from wrong
        if minutes > self.most:
            raise forms.ValidationError(f"At most {duration_words(self.most)}.")
        if minutes < self.least:
            raise forms.ValidationError(f"At least {duration_words(self.least)}.")
        return minutes

    def prepare_value(self, value: Any) -> Any:
        if not isinstance(value, int):
            return value
        hours, minutes = divmod(value, 60)
        return f"{hours}:{minutes:02d}" if hours else f"{minutes} min"
