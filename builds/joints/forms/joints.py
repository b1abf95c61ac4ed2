"""Forms of a joint: what it is, the torque it was brought to, and what was seen of it."""

from collections.abc import Collection, Mapping
from typing import Any

from django import forms

from builds.joints.actions import last_mark, last_marks
from builds.joints.engine.joints import OPENERS
from builds.joints.facts import hands_on
from builds.joints.models import MOST_MNM, Joint
from builds.readings.engine.kinds_of_work import KINDS
from builds.steps.forms import LookForm
from garage.engine.said import says_unit
from garage.forms.choices import TicksField
from garage.forms.edits import EditForm
from garage.forms.quantities import QuantityField
from garage.forms.systems import SystemsField

OFFERED = ("joint_opened", "jam_nut", "wheel_off", "hub_opened", "steering_arm", "bushing_or_mount")


class JointForm(EditForm, forms.Form):
    name = forms.CharField(label="Which joint", max_length=80, help_text="such as wheel nuts, front left")
    systems = SystemsField(
        label="What it belongs to",
        help_text="A joint of steering, brakes, suspension, wheels, restraint, seat, fuel, fire or"
        " cage is signed by a second person.",
    )
    opened_by = TicksField(
        label="Work that opens it",
        short=True,
    )
    thread = forms.CharField(max_length=40, required=False, help_text="such as M12×1.5")
    klass = forms.CharField(label="Class", max_length=20, required=False, help_text="such as 10.9")
    figure_mnm = QuantityField("torque", "mN·m", 1, MOST_MNM, label="Maker's figure", required=False)
    figure_from = forms.CharField(
        label="Where the figure is from", max_length=120, required=False,
        help_text="workshop manual, maker's sheet",
    )  # fmt: skip
    wrench = forms.CharField(label="Wrench", max_length=60, required=False)
    again_after_run = forms.BooleanField(
        label="Again after the first session", required=False, help_text="wheel nuts, jam nuts"
    )

    def __init__(self, *args: Any, units: str, joint: Joint | None = None, **kwargs: Any) -> None:
        if joint:
            kwargs["initial"] = {name: getattr(joint, name) for name in self.base_fields}
        super().__init__(*args, edits=joint is not None, **kwargs)
        self.fields["figure_mnm"].use(units)
        self.fields["opened_by"].choices = _openers(joint.opened_by if joint else OFFERED)


def _openers(first: Collection[str]) -> list[tuple[str, Any]]:
    """Those that are asked `first`, the others folded."""
    kinds = [(slug, KINDS[slug].label) for slug in OPENERS]
    others = [(slug, label) for slug, label in kinds if slug not in first]
    return [*(kind for kind in kinds if kind not in others), ("Other kinds of work", others)]


class MarkForm(forms.Form):
    torque_mnm = QuantityField("torque", "mN·m", 1, MOST_MNM, label="Torqued to", required=False)
    wrench = forms.CharField(label="Wrench", max_length=60, required=False)
    note = forms.CharField(max_length=200, required=False, help_text="why it is not the maker's figure, if it is not")
    after = forms.IntegerField(min_value=0, max_value=2**63 - 1, required=False, widget=forms.HiddenInput)

    def __init__(
        self, *args: Any, units: str, joint: Joint, marks: Mapping[int, int] | None = None, **kwargs: Any
    ) -> None:
        """`marks` are the last ones (pk) by joint (pk), if they are at hand."""
        self.last = (last_marks([joint]) if marks is None else marks).get(joint.pk, 0)
        kwargs["initial"] = {"torque_mnm": joint.figure_mnm, "wrench": joint.wrench, "after": self.last}
        super().__init__(*args, **kwargs)
        self.fields["torque_mnm"].use(units)
        self.unit = self.fields["torque_mnm"].unit

    def look_again(self) -> None:
        """Draw the form again after the mark that is the last one now, all that was typed kept."""
        self.data = self.data.copy()
        self.data[self.add_prefix("after")] = str(self.last)

    @property
    def typed(self) -> str:
        text = str(self.data.get(self.add_prefix("torque_mnm"), "")).strip()
        return text if not text or says_unit(text) else f"{text} {self.unit}"


class JointSignForm(LookForm):
    """`of` is the mark (pk) that was drawn: a look is at that one."""

    of = forms.IntegerField(min_value=1, max_value=2**63 - 1, required=False, widget=forms.HiddenInput)

    def __init__(self, *args: Any, joint: Joint, **kwargs: Any) -> None:
        last = last_mark(joint)
        workers = hands_on([(joint, last)])[joint.pk] if last else ()
        initial = {"of": last.pk if last else None}
        super().__init__(*args, initial=initial, workers=workers, safety=joint.safety, **kwargs)
