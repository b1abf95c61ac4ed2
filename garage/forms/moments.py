"""A field for a moment in the garage's own time."""

from datetime import datetime
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils import timezone


class MomentField(forms.DateTimeField):
    """Typed as local time; an hour that the clocks skip is refused, a doubled one is its first."""

    widget = forms.DateTimeInput

    def __init__(self, **kwargs: Any) -> None:
        kwargs.setdefault("widget", forms.DateTimeInput({"type": "datetime-local"}, format="%Y-%m-%dT%H:%M"))
        kwargs.setdefault("error_messages", {"invalid": "Write a date and a time, such as 2027-05-14 07:30."})
        super().__init__(**kwargs)

    def to_python(self, value: Any) -> datetime | None:
        if value in self.empty_values:
            return None
        for shape in ("%Y-%m-%dT%H:%M", "%Y-%m-%dT%H:%M:%S", "%Y-%m-%d %H:%M"):
            try:
                naive = datetime.strptime(str(value).strip(), shape)
            except ValueError:
                continue
            return self._aware(naive)
        raise ValidationError(self.error_messages["invalid"], code="invalid")

    @staticmethod
    def _aware(naive: datetime) -> datetime:
        zone = timezone.get_current_timezone()
        local = naive.replace(tzinfo=zone)
        try:
            again = local.astimezone(timezone.get_fixed_timezone(0)).astimezone(zone)
        except (OverflowError, ValueError) as wrong:
            raise ValidationError("That year is too far away.") from wrong
        if again.replace(tzinfo=None) != naive:
            raise ValidationError(f"{naive:%H:%M} does not exist that day: the clocks skip it.")
        if not 1990 <= naive.year <= 2200:
            raise ValidationError("That year is too far away.")
        return local
