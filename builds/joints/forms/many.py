"""Several joints in one form: torqued by whoever ticks them, or looked at by a second person."""

from collections.abc import Iterable, Mapping
from typing import Any

from django import forms

from builds.joints.actions import Marking, last_marks
from builds.joints.facts import JointLine
from builds.joints.forms.joints import MarkForm
from builds.joints.models import Joint, JointMark
from garage.forms.choices import TicksField
from garage.forms.within import FormWithin

PREFIX = "joint-"
NONE_TICKED = "Tick at least one of them."


def joints_sent(data: Mapping[str, Any] | None) -> set[int]:
    """The joints (pk) that were drawn in the form that came: what was typed of them is not lost."""
    ends = (name.removeprefix(PREFIX).partition("-")[0] for name in data or () if name.startswith(PREFIX))
    return {int(end) for end in ends if end.isdecimal() and len(end) < 19}


class OneMarkForm(MarkForm):
    """Its figure stands there before anybody was at it: only the tick says that it was torqued."""

    done = forms.BooleanField(label="Torqued and striped", required=False)
    field_order = ["done"]

    def __init__(self, *args: Any, joint: Joint, **kwargs: Any) -> None:
        super().__init__(*args, joint=joint, prefix=f"{PREFIX}{joint.pk}", **kwargs)
        self.joint = joint

    def full_clean(self) -> None:
        super().full_clean()
        if self.is_bound and not self.cleaned_data.get("done"):
            self.errors.clear()

    @property
    def clashes(self) -> bool:
        """Whether somebody torqued it since it was drawn."""
        return self.cleaned_data["done"] and self.cleaned_data["after"] not in (None, self.last)

    @property
    def marking(self) -> Marking:
        told = {name: self.cleaned_data[name] for name in ("torque_mnm", "wrench", "note", "after")}
        return Marking(self.joint, {**told, "typed": self.typed})


class ManyMarksForm(FormWithin):
    def __init__(self, data: Any = None, *, joints: Iterable[Joint], units: str) -> None:
        super().__init__(data)
        offered = list(joints)
        marks = last_marks(offered)
        self.each = [OneMarkForm(data, joint=joint, units=units, marks=marks) for joint in offered]

    @property
    def within(self) -> list[OneMarkForm]:
        return self.each

    def clean(self) -> dict[str, Any]:
        if not any(form.is_valid() and form.cleaned_data["done"] for form in self.each) and not self._wrong():
            self.add_error(None, NONE_TICKED)
        return super().clean() or self.cleaned_data

    def _wrong(self) -> bool:
        return any(form.errors for form in self.each)

    def look_again(self) -> None:
        """Of the one whose clash was said; another that was torqued meanwhile is still to be said."""
        clashed = (form for form in self.each if form.clashes)
        if first := next(clashed, None):
            first.look_again()

    def markings(self) -> list[Marking]:
        return [form.marking for form in self.each if form.cleaned_data["done"]]


class ManyLooksForm(forms.Form):
    """`lines` are marked and wait for a look that whoever is signed in may take; none is ticked beforehand."""

    marks = TicksField(
        label="I looked at these",
        error_messages={
            "required": NONE_TICKED,
            "invalid_choice": "One of these was torqued anew or signed meanwhile: look again.",
        },
        required=True,
    )

    def __init__(self, data: Any = None, *, lines: Iterable[tuple[JointLine, str]]) -> None:
        super().__init__(data)
        self.lines = {str(line.mark.pk): line for line, _ in lines if line.mark}
        said = [(str(line.mark.pk), f"{line.joint}: {words}") for line, words in lines if line.mark]
        self.fields["marks"].choices = said

    def looked_at(self) -> list[tuple[Joint, JointMark]]:
        chosen = [self.lines[key] for key in self.cleaned_data["marks"]]
        return [(line.joint, line.mark) for line in chosen if line.mark]
