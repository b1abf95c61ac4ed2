"""Lines of a week, one a weekday or the five in one, that read as stretches of hours."""

from collections.abc import Mapping, Sequence
from typing import Any, ClassVar

from django import forms

from garage.engine.hours import DAYS, HoursError, Stretch, parse_day, weekday_words
from garage.models.hours import WEEKDAYS

EACH_DAY = {label: (number,) for number, label in enumerate(WEEKDAYS)}
# For who is in alike from Monday to Friday; what differs is said in the week with a line a day.
SHORT_WEEK = {"Monday to Friday": tuple(range(5)), "Saturday": (5,), "Sunday": (6,)}


class WeekFields(forms.Form):
    """Mixed into forms that hold a week; `cleaned_data["week"]` is a list of Stretch.

    `lines` are the weekdays that each line is for, by its label.
    """

    lines: ClassVar[Mapping[str, Sequence[int]]] = EACH_DAY

    def add_week(self, stretches: list[Stretch]) -> None:
        for at, (label, numbers) in enumerate(self.lines.items()):
            self.fields[_named(numbers)] = forms.CharField(
                label=label,
                required=False,
                max_length=60,
                initial=weekday_words(stretches, numbers[0]),
                help_text="such as 18:30-22:00" if at == 0 else "",
            )

    def days(self) -> list[forms.BoundField]:
        return [self[_named(numbers)] for numbers in self.lines.values()]

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        week: list[Stretch] = []
        for numbers in self.lines.values():
            said = cleaned.pop(_named(numbers), "") or ""
            try:
                week += [stretch for number in numbers for stretch in parse_day(number, said)]
            except HoursError as wrong:
                self.add_error(_named(numbers), str(wrong))
        cleaned["week"] = week
        return cleaned


def _named(numbers: Sequence[int]) -> str:
    """`mon`, `mon_fri`."""
    return "_".join(dict.fromkeys([DAYS[numbers[0]].lower(), DAYS[numbers[-1]].lower()]))
