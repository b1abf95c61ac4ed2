"""Seven lines, one a weekday, that read as stretches of hours."""

from typing import Any

from django import forms

from garage.engine.hours import DAYS, HoursError, Stretch, parse_day, weekday_words
from garage.models.hours import WEEKDAYS


class WeekFields(forms.Form):
    """Mixed into forms that hold a week; `cleaned_data["week"]` is a list of Stretch."""

    def add_week(self, stretches: list[Stretch]) -> None:
        for number, (name, label) in enumerate(zip(DAYS, WEEKDAYS, strict=True)):
            self.fields[name.lower()] = forms.CharField(
                label=label,
                required=False,
                max_length=60,
                initial=weekday_words(stretches, number),
                help_text="such as 18:30-22:00" if number == 0 else "",
            )

    def days(self) -> list[forms.BoundField]:
        return [self[name.lower()] for name in DAYS]

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        week: list[Stretch] = []
        for number, name in enumerate(DAYS):
            try:
                week += parse_day(number, cleaned.pop(name.lower(), "") or "")
            except HoursError as wrong:
                self.add_error(name.lower(), str(wrong))
        cleaned["week"] = week
        return cleaned
