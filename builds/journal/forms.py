"""Which lines of the journal are asked for."""

from django import forms

from builds.journal.pages import DEVICES
from garage.models import Membership


class JournalForm(forms.Form):
    """Asked by an address, so that a day of somebody can be handed on; `of` is a thing such as `jobs-12`."""

    who = forms.ModelChoiceField(
        label="Who", queryset=Membership.objects.none(), required=False, empty_label="everybody"
    )
    day = forms.DateField(label="Day", required=False, widget=forms.DateInput({"type": "date"}))
    device = forms.ChoiceField(label="On", choices=[("", "any device"), *DEVICES.items()], required=False)
    of = forms.RegexField(r"^[a-z]{1,20}-\d{1,18}$", required=False, widget=forms.HiddenInput)

    def __init__(self, *args: object, reader: Membership, **more: object) -> None:
        super().__init__(*args, **more)
        self.fields["who"].queryset = Membership.objects.visible_to(reader).select_related("person")
