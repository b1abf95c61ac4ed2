"""The week of a person, a day that differs, and until when tonight."""

from datetime import date, timedelta
from typing import Any

from django import forms

from garage.engine.hours import HoursError, parse_day, parse_end
from garage.forms.edits import EditForm
from garage.forms.hours import WeekFields
from garage.models import DayHours, Membership

FARTHEST = timedelta(days=731)


class WeekForm(EditForm, WeekFields):
    def __init__(self, *args: Any, member: Membership, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.add_week([hours.stretch for hours in member.weekly_hours.all()])


class DayForm(forms.Form):
    """`cleaned_data` holds day, kind, stretches and note."""

    day = forms.DateField(widget=forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"))
    kind = forms.ChoiceField(label="What differs", choices=DayHours.Kind.choices, widget=forms.RadioSelect)
    hours = forms.CharField(max_length=60, required=False, help_text="such as 18:30-22:00; none for a day off")
    note = forms.CharField(max_length=120, required=False)

    def __init__(self, *args: Any, today: date, **kwargs: Any) -> None:
        self.today = today
        super().__init__(*args, initial={"day": today, "kind": "off"}, **kwargs)
        self.fields["day"].widget.attrs["min"] = today.isoformat()

    def clean_day(self) -> date:
        day: date = self.cleaned_data["day"]
        if day < self.today:
            raise forms.ValidationError("That day is over: choose today or a later one.")
        if day - self.today > FARTHEST:
            raise forms.ValidationError("That is more than two years away.")
        return day

    def clean(self) -> dict[str, Any]:
        cleaned: dict[str, Any] = super().clean() or self.cleaned_data
        words, kind = cleaned.pop("hours", ""), cleaned.get("kind")
        cleaned["stretches"] = []
        if kind == "off" and words:
            self.add_error("hours", "A day off has no hours: leave this empty.")
        elif kind != "off" and not words and "hours" not in self.errors:
            self.add_error("hours", "Write the hours, such as 18:30-22:00.")
        elif words and "day" in cleaned:
            try:
                cleaned["stretches"] = parse_day(cleaned["day"].weekday(), words)
            except HoursError as wrong:
                self.add_error("hours", str(wrong))
        return cleaned


class TonightForm(forms.Form):
    until = forms.CharField(label="In tonight until", max_length=8, widget=forms.TextInput(attrs={"size": 5}))

    def clean_until(self) -> int:
        try:
            return parse_end(self.cleaned_data["until"])
        except HoursError as wrong:
            raise forms.ValidationError(str(wrong)) from wrong
