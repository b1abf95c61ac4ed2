"""Who looked: somebody of the garage, or somebody from outside whom the owner names."""

from typing import Any

from django import forms

from builds.work.models.job import NAME_MOST
from garage.access import OWNER
from garage.models import Membership


class LookForm(forms.Form):
    """One tap says nothing: then whoever taps looked."""

    who = forms.ModelChoiceField(
        label="Who looked at it",
        queryset=Membership.objects.none(),
        required=False,
        empty_label="me",
        error_messages={"invalid_choice": "Choose somebody of this garage."},
    )
    outsider = forms.CharField(
        label="Or who from outside",
        max_length=NAME_MOST,
        required=False,
        help_text="a name, when somebody looked who is not of this garage; it is marked so",
    )

    def __init__(self, *args: Any, member: Membership, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["who"].queryset = Membership.objects.visible_to(member).signers().select_related("person")
        if member.role != OWNER:
            del self.fields["outsider"]
