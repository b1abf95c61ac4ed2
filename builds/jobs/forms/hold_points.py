"""Forms of hold points."""

from typing import Any

from django import forms

from builds.steps.facts.looks import for_safety, hands_looked_at
from builds.steps.forms import LookForm
from builds.work.models.hold_point import MOST_MILLI, HoldPoint
from garage.engine.said import said_in
from garage.engine.units import QuantityError


class HoldPointForm(forms.Form):
    what = forms.CharField(
        label="What is looked at",
        max_length=160,
        help_text="Work stops at the end of the job until somebody who did not do it has signed.",
    )

    asks = forms.CharField(
        label="A value that is asked for",
        max_length=60,
        required=False,
        help_text="such as torque, gap, or who did the crack test",
    )
    unit = forms.CharField(max_length=12, required=False, help_text="such as N·m; none when words are asked for")
    low = forms.CharField(label="No less than", max_length=20, required=False)
    high = forms.CharField(label="No more than", max_length=20, required=False)

    def clean_low(self) -> int | None:
        return self._milli("low")

    def clean_high(self) -> int | None:
        return self._milli("high")

    def _milli(self, name: str) -> int | None:
        typed = self.cleaned_data[name]
        if not typed:
            return None
        try:
            milli = round(said_in(typed, self.cleaned_data.get("unit", "")) * 1000)
        except QuantityError as wrong:
            raise forms.ValidationError(str(wrong)) from wrong
        if abs(milli) > MOST_MILLI:
            raise forms.ValidationError("That is out of all proportion: use a larger unit.")
        return milli

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        low, high = cleaned.get("low"), cleaned.get("high")
        if (low is not None or high is not None) and not cleaned.get("unit"):
            self.add_error("unit", "Bounds need a unit.")
        if cleaned.get("unit") and not cleaned.get("asks"):
            self.add_error("asks", "Say what is measured.")
        if low is not None and high is not None and low > high:
            self.add_error("high", "It must not lie below the other bound.")
        return cleaned

    def point(self) -> dict[str, Any]:
        """What the action takes besides `what`."""
        cleaned = self.cleaned_data
        return {
            "asks": cleaned["asks"],
            "unit": cleaned["unit"],
            "low_milli": cleaned["low"],
            "high_milli": cleaned["high"],
        }


class SeenForm(LookForm):
    """Who looked and what was seen; one tap says neither."""

    value = forms.CharField(max_length=80, required=False)
    seen = forms.CharField(label="What was seen", max_length=200, required=False)

    def __init__(self, *args: Any, point: HoldPoint, **kwargs: Any) -> None:
        workers = hands_looked_at([point.job])[point.job_id]
        super().__init__(*args, workers=workers, safety=for_safety(point.job), **kwargs)
        if not point.asks:
            del self.fields["value"]
            return
        value = self.fields["value"]
        value.label = point.asks
        value.unit, value.help_text = point.unit, point.bounds
        if point.unit:
            value.widget.attrs["inputmode"] = "decimal"
