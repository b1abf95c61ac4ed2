"""When somebody can come; for whom a link is; who it was that said so."""

from datetime import date, timedelta
from typing import Any

from django import forms

from garage.actions.visits import MOST_DAYS
from garage.engine.hours import HoursError, parse_end
from garage.engine.moments import day_words
from garage.forms.choices import NOT_HERE
from garage.models import Garage, Membership, Skill, VisitLink

AHEAD = 14
ANYBODY = "whoever has it; you say yes to each"


class VisitLinkForm(forms.Form):
    member = forms.ModelChoiceField(
        label="For",
        queryset=Membership.objects.none(),
        required=False,
        empty_label=ANYBODY,
        help_text="What one of you says counts at once.",
    )
    days = forms.IntegerField(label="For how many days", min_value=1, max_value=MOST_DAYS, initial=14)

    def __init__(self, *args: Any, garage: Garage, **more: Any) -> None:
        super().__init__(*args, **more)
        here = Membership.objects.in_garage(garage).active().working().select_related("person")
        self.fields["member"].queryset = here


class VisitForm(forms.Form):
    """`cleaned_data` holds days, since and until (minutes), and name where the link asks who."""

    name = forms.CharField(label="Who are you", max_length=60, help_text="As they call you in the garage.")
    days = forms.MultipleChoiceField(label="I can come", widget=forms.CheckboxSelectMultiple)
    since = forms.CharField(label="From", max_length=8, initial="18:00", widget=forms.TextInput(attrs={"size": 5}))
    until = forms.CharField(label="Until", max_length=8, initial="22:00", widget=forms.TextInput(attrs={"size": 5}))

    def __init__(self, *args: Any, link: VisitLink, today: date, **more: Any) -> None:
        super().__init__(*args, **more)
        if not link.asks_who:
            del self.fields["name"]
        days = [today + timedelta(days=ahead) for ahead in range(AHEAD)]
        words = {days[0]: f"today, {day_words(days[0])}"}
        self.fields["days"].choices = [(day.isoformat(), words.get(day, day_words(day))) for day in days]

    def clean_days(self) -> list[date]:
        return [date.fromisoformat(day) for day in self.cleaned_data["days"]]

    def _minute(self, name: str) -> int:
        try:
            return parse_end(self.cleaned_data[name])
        except HoursError as wrong:
            raise forms.ValidationError(str(wrong)) from wrong

    def clean_since(self) -> int:
        return self._minute("since")

    def clean_until(self) -> int:
        return self._minute("until")

    def clean(self) -> dict[str, Any]:
        cleaned: dict[str, Any] = super().clean() or self.cleaned_data
        since, until = cleaned.get("since"), cleaned.get("until")
        if since is not None and until is not None and since >= until:
            self.add_error("until", "Write a later time than that from which you can come, at most 24:00.")
        return cleaned


class VisitTakeForm(forms.Form):
    """Which of those here he is, or somebody new: the owner says so, never whoever wrote the name."""

    member = forms.ModelChoiceField(
        label="That is", queryset=Membership.objects.none(), required=False, widget=forms.RadioSelect
    )
    skills = forms.ModelMultipleChoiceField(
        label="What somebody new can do",
        queryset=Skill.objects.none(),
        required=False,
        widget=forms.CheckboxSelectMultiple({"class": "short"}),
        error_messages=NOT_HERE,
        help_text="The plan gives work to those who can do it. Whoever is here already keeps the skills on his page.",
    )

    def __init__(self, *args: Any, link: VisitLink, **more: Any) -> None:
        super().__init__(*args, **more)
        self.fields["member"].queryset = (
            Membership.objects.in_garage(link.garage_id).active().working().select_related("person")
        )
        self.fields["member"].empty_label = f"somebody new, called {link.name}: planned with, but may not sign"
        self.fields["member"].initial = ""
        self.fields["skills"].queryset = Skill.objects.in_garage(link.garage_id)
        if not self.fields["skills"].queryset.exists():
            del self.fields["skills"]
