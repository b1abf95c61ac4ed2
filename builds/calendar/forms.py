"""Whose calendar is made."""

from typing import Any

from django import forms

from garage.access import refuse_own_calendar
from garage.models import Membership

MINE, WHOLE = ("mine", "My evenings"), ("whole", "The whole garage")


class CalendarForm(forms.Form):
    of = forms.ChoiceField(label="Of", widget=forms.RadioSelect)

    def __init__(self, *args: Any, member: Membership, **more: Any) -> None:
        super().__init__(*args, **more)
        self.fields["of"].choices = [WHOLE] if refuse_own_calendar(member) else [MINE, WHOLE]

    @property
    def whole(self) -> bool:
        return self.cleaned_data["of"] == WHOLE[0]
