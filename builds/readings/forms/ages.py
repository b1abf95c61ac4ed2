"""How many days readings count for, of each kind or of all."""

from collections.abc import Iterable, Mapping
from typing import Any

from django import forms

from builds.readings.engine.reading_kind import ReadingKind
from builds.readings.models.age import MOST_DAYS
from garage.forms.edits import EditForm


class DaysField(forms.IntegerField):
    def __init__(self, **more: Any) -> None:
        super().__init__(required=False, min_value=1, max_value=MOST_DAYS, **more)


class ReadingAgesForm(EditForm, forms.Form):
    """Days by kind; an empty field is like all of them, and all of them empty is no limit."""

    every = DaysField(label="Every reading, days", help_text="Empty: as long as nothing changes it.")

    def __init__(self, *args: Any, kinds: Iterable[ReadingKind], days: Mapping[str, int], **kwargs: Any) -> None:
        kwargs["initial"] = {"every": days.get(""), **{f"days_{key}": days[key] for key in days if key}}
        super().__init__(*args, **kwargs)
        self.kinds = tuple(kinds)
        for kind in self.kinds:
            self.fields[f"days_{kind.key}"] = DaysField(label=f"{kind.label}, days")

    def by_kind(self) -> list[forms.BoundField]:
        return [self[f"days_{kind.key}"] for kind in self.kinds]

    def days(self) -> dict[str, int]:
        """By kind (key), that of all of them under an empty key."""
        told = {kind.key: self.cleaned_data[f"days_{kind.key}"] for kind in self.kinds}
        told[""] = self.cleaned_data["every"]
        return {key: days for key, days in told.items() if days}
