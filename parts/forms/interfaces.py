"""The forms of what a part fits, one a kind, and a field that reads it from plain words."""

from collections.abc import Callable
from typing import Any

from django import forms

from parts.engine.fit import FitError, Interface, parse, read, read_all, stored, wish, words
from parts.engine.fit.interface import SEATS, SIDES, hole, voltage
from parts.engine.fit.numbers import LONGEST
from parts.engine.fit.pattern import parse_pattern
from parts.engine.fit.strength import strength

SEAT_CHOICES = [("", "not known"), *SEATS.items()]


class SizeField(forms.CharField):
    """Text that an engine must be able to read; its sentence is the field's."""

    def __init__(self, reads: Callable[[str], Any], **kwargs: Any) -> None:
        self.reads = reads
        super().__init__(max_length=LONGEST, **kwargs)

    def clean(self, value: Any) -> Any:
        text = super().clean(value)
        try:
            if text:
                self.reads(text)
        except FitError as refused:
            raise forms.ValidationError(str(refused)) from None
        return text


class InterfaceForm(forms.Form):
    """`interface` is what was written, once it is valid."""

    kind: str
    interface: Interface

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        if not self.errors:
            try:
                self.interface = read({"kind": self.kind, **cleaned})
            except FitError as refused:
                self.add_error(next(iter(self.fields)), str(refused))
        return cleaned


class ThreadForm(InterfaceForm):
    kind = "thread"
    thread = SizeField(
        parse,
        label="Thread",
        help_text="As it is marked or measured: M12×1.25, M12 (coarse), 1/2-20 UNF, M12×1.5-LH.",
    )
    side = forms.ChoiceField(
        label="It is a",
        choices=[(side, label) for side, label in SIDES.items() if side],
        widget=forms.RadioSelect,
    )
    strength = SizeField(
        strength,
        label="Strength class",
        required=False,
        help_text="As it is stamped: 8.8, 10.9; of a nut 8, 10. Not stamped is not known.",
    )
    seat = forms.ChoiceField(label="Seat of a wheel nut or bolt", choices=SEAT_CHOICES, required=False)


class WheelForm(InterfaceForm):
    kind = "wheel"
    pattern = SizeField(
        parse_pattern,
        label="Bolt pattern",
        help_text="Studs × circle: 5×112, or in inches 5×4½. 5×112 and 5×114.3 differ by 1.35 mm "
        "from stud to stud: measure with callipers.",
    )
    bore = SizeField(lambda text: hole(text, "bore"), label="Bore", required=False, help_text="Over the spigot.")
    seat = forms.ChoiceField(label="Seat of its nuts", choices=SEAT_CHOICES, required=False)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for name in ("bore", "spigot"):
            if name in self.fields:
                self.fields[name].unit = "mm"
                self.fields[name].widget.attrs["inputmode"] = "decimal"


class HubForm(WheelForm):
    kind = "hub"
    bore = None
    spigot = SizeField(
        lambda text: hole(text, "spigot"),
        label="Spigot",
        required=False,
        help_text="The round step that centres the wheel.",
    )
    field_order = ["pattern", "spigot", "seat"]


class ElectricalForm(InterfaceForm):
    kind = "electrical"
    volts = SizeField(voltage, label="Voltage", required=False)
    connector = forms.CharField(
        label="Connector", max_length=40, required=False, help_text="In words, always the same."
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["volts"].unit = "V"


FORMS: dict[str, type[InterfaceForm]] = {form.kind: form for form in (ThreadForm, WheelForm, HubForm, ElectricalForm)}


class FitField(forms.CharField):
    """What something must fit, typed in plain words and kept as interfaces."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(
            label="What it must fit",
            max_length=LONGEST,
            required=False,
            help_text="A size that is read: M12×1.25 nut, 1/2-20 UNF bolt, 5×112 bore 66.6, 12 V.",
            **kwargs,
        )

    def clean(self, value: Any) -> list[dict[str, str]]:
        text = super().clean(value)
        if not text:
            return []
        wished = wish(text)
        if not wished.wants:
            raise forms.ValidationError("No size can be read here: write one such as M12×1.25 nut or 5×112 bore 66.6.")
        if wished.rest:
            raise forms.ValidationError(f"“{wished.rest}” is no size: leave it out here.")
        return [stored(want) for want in wished.wants]

    def prepare_value(self, value: Any) -> Any:
        """What is kept, in the words in which it can be typed."""
        if isinstance(value, list):
            return ", ".join(words(interface) for interface in read_all(value))
        return value
