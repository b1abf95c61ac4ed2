"""How long a piece lasts by use."""

from typing import Any

from django import forms

from builds.gear.models import MOST_MONTHS, MOST_RUNS, UseLife
from garage.forms.edits import EditForm
from garage.forms.moments import MomentField

MOST_HOURS = 1000


class GearLifeForm(EditForm, forms.Form):
    """Runs, hours or months, whichever is sooner; all empty is no life by use."""

    runs = forms.IntegerField(label="Lasts, runs", min_value=1, max_value=MOST_RUNS, required=False)
    hours = forms.DecimalField(
        label="Lasts, hours of running", min_value=1, max_value=MOST_HOURS, decimal_places=1, required=False
    )
    run_minutes = forms.IntegerField(
        label="One run takes, minutes", min_value=1, max_value=24 * 60, required=False,
        help_text="hours are counted by it",
    )  # fmt: skip
    months = forms.IntegerField(label="Lasts, months", min_value=1, max_value=MOST_MONTHS, required=False)
    since = MomentField(label="New since")

    def __init__(self, *args: Any, life: UseLife | None, **kwargs: Any) -> None:
        if life:
            kwargs["initial"] = {
                **{name: getattr(life, name) for name in ("runs", "run_minutes", "months", "since")},
                "hours": life.minutes / 60 if life.minutes else None,
            }
        super().__init__(*args, **kwargs)

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        if bool(cleaned.get("hours")) != bool(cleaned.get("run_minutes")) and not self.errors:
            missing = "run_minutes" if cleaned.get("hours") else "hours"
            self.add_error(missing, "Write both the hours and how long one run takes, or neither.")
        return cleaned

    def lasts(self) -> dict[str, Any]:
        """What `set_life` wants."""
        told = {name: self.cleaned_data[name] for name in ("runs", "run_minutes", "months", "since")}
        hours = self.cleaned_data["hours"]
        return {**told, "minutes": round(hours * 60) if hours else None}
