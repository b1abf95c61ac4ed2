"""Forms of hold points."""

from typing import Any

from django import forms

from garage.models import Membership


class HoldPointForm(forms.Form):
    what = forms.CharField(
        label="What is looked at",
        max_length=160,
        help_text="Work stops at the end of the job until somebody who did not do it has signed.",
    )


class SeenForm(forms.Form):
    """Who looked and what was seen; one tap says neither."""

    who = forms.ModelChoiceField(
        label="Who looked at it",
        queryset=Membership.objects.none(),
        required=False,
        empty_label="me",
        error_messages={"invalid_choice": "Choose somebody of this garage."},
    )
    seen = forms.CharField(label="What was seen", max_length=200, required=False)

    def __init__(self, *args: Any, member: Membership, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        hands = Membership.objects.visible_to(member).hands().select_related("person")
        self.fields["who"].queryset = hands
