"""The forms that say which cars ran: for the strip-down check, and of one that is withdrawn from what has begun."""

from typing import Any

from django import forms

from garage.models import Entry, Event, Membership

RAN = "ran"


class WithdrawForm(forms.Form):
    ran = forms.ChoiceField(
        label="Did it run there?",
        choices=[("stayed", "It did not run: withdraw it"), (RAN, "It ran: it stays entered")],
        widget=forms.RadioSelect,
        error_messages={"required": "Say whether it ran: what running changes hangs on that."},
    )


class Ran(forms.ModelMultipleChoiceField):
    def label_from_instance(self, entry: Entry) -> str:
        return entry.vehicle.name


class StripDownForm(forms.Form):
    """Cars that have the check already, and those on which he does not work, are not offered; those known to have run
    start ticked.
    """

    entries = Ran(
        queryset=Entry.objects.none(),
        label="Cars that ran",
        widget=forms.CheckboxSelectMultiple,
        error_messages={"required": "Tick at least one car that ran."},
    )

    def __init__(self, *args: Any, event: Event, by: Membership, **kwargs: Any) -> None:
        rows = Entry.objects.on_cars_of(by).filter(event=event, run__stripped=None)
        rows = rows.kept().select_related("vehicle")
        ran = rows.filter(run__ran=True).values_list("pk", flat=True)
        kwargs["initial"] = {"entries": list(ran)}
        super().__init__(*args, **kwargs)
        self.fields["entries"].queryset = rows
