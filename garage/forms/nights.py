"""The form of a night: from when until when cars are repaired at an event, and by when they are ready."""

from datetime import datetime, timedelta
from typing import Any

from django import forms
from django.utils import timezone

from garage.forms.edits import EditForm
from garage.forms.moments import MomentField
from garage.models import Event, Night

OWN = ("from_at", "until_at", "due_at")
USUAL_HOURS = (18, 23)  # common practice, no source


class NightForm(EditForm, forms.Form):
    from_at = MomentField(label="Work begins")
    until_at = MomentField(label="Work ends", help_text="lights out, or when the paddock wants quiet")
    due_at = MomentField(label="Cars must be ready", help_text="the next morning: when they go out, or are looked at")

    def __init__(self, *args: Any, event: Event, night: Night | None = None, **kwargs: Any) -> None:
        self.event = event
        kwargs["initial"] = {name: getattr(night, name) for name in OWN} if night else _usual(event)
        super().__init__(*args, edits=night is not None, **kwargs)

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        begins, ends, due = (cleaned.get(name) for name in OWN)
        if begins and begins < self.event.gates_at:
            self.add_error("from_at", "That is before the gates open.")
        if begins and ends and ends <= begins:
            self.add_error("until_at", "It ends before it begins.")
        if ends and due and due < ends:
            self.add_error("due_at", "Cars are ready once the work has ended, not before.")
        elif due and due > self.event.ends_at:
            self.add_error("due_at", "The event is over by then.")
        return cleaned


def _usual(event: Event) -> dict[str, datetime]:
    """The first evening, and the next morning at the hour at which the gates opened."""
    gates = timezone.localtime(event.gates_at)
    begins, ends = (gates.replace(hour=hour, minute=0, second=0, microsecond=0) for hour in USUAL_HOURS)
    return {"from_at": begins, "until_at": ends, "due_at": gates + timedelta(days=1)}
