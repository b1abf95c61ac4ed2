"""The form that says which cars ran, so that the strip-down check goes on them."""

from typing import Any

from django import forms

from garage.models import Entry, Event


class Ran(forms.ModelMultipleChoiceField):
    def label_from_instance(self, entry: Entry) -> str:
        return entry.vehicle.name


class StripDownForm(forms.Form):
    """Cars that have the check already are not offered; those known to have run start ticked."""

    entries = Ran(
        queryset=Entry.objects.none(),
        label="Cars that ran",
        widget=forms.CheckboxSelectMultiple,
        error_messages={"required": "Tick at least one car that ran."},
    )

    def __init__(self, *args: Any, event: Event, **kwargs: Any) -> None:
        rows = Entry.objects.in_garage(event.garage_id).filter(event=event, run__stripped=None)
        rows = rows.kept().select_related("vehicle")
        ran = rows.filter(run__ran=True).values_list("pk", flat=True)
        kwargs["initial"] = {"entries": list(ran)}
        super().__init__(*args, **kwargs)
        self.fields["entries"].queryset = rows
