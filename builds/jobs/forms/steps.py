"""What a step of a job may be told besides the tap: who, when, how much is left, why."""

from datetime import datetime
from typing import Any

from django import forms

from builds.readings.engine.kinds_of_work import KINDS
from builds.steps.engine.opened import WHAT_WAS_OPENED, likely_first
from builds.steps.facts.looks import for_safety, workers_of
from builds.steps.facts.opened import asks
from builds.steps.forms import LookForm
from builds.work.models.job import MOST_MINUTES, Job
from garage.forms.durations import DurationField
from garage.forms.moments import MomentField
from garage.models import Membership


class StepForm(forms.Form):
    """`member` taps; every field may stay empty, so that one tap is enough."""

    def __init__(self, *args: Any, job: Job, member: Membership, at: datetime, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.member, self.at = member, at
        people = Membership.objects.visible_to(member).active().select_related("person")
        if "crew" in self.fields:
            self.fields["crew"].queryset = people

    def clean_moment(self) -> datetime | None:
        moment: datetime | None = self.cleaned_data["moment"]
        if moment and moment > self.at:
            raise forms.ValidationError("That time is still to come: choose one that has passed.")
        return moment


class EarlierForm(StepForm):
    """A step that was taken before anybody had a hand free to tap it."""

    moment = MomentField(label="When it was", required=False, help_text="empty is now")


class StartForm(EarlierForm):
    crew = forms.ModelMultipleChoiceField(
        label="Who is on it",
        queryset=Membership.objects.none(),
        required=False,
        widget=forms.CheckboxSelectMultiple,
        help_text="nobody ticked is you",
        error_messages={"invalid_choice": "Choose people of this garage."},
    )
    field_order = ["crew", "moment"]


class StopForm(EarlierForm):
    left = DurationField(
        label="Left to do, if you know better",
        most=MOST_MINUTES,
        least=1,
        required=False,
        help_text="such as 2 h, 1:30 or 45 min",
    )


class FinishForm(EarlierForm):
    """What a job written down by hand opened, the likely first; one tap says nothing of it."""

    nothing = forms.BooleanField(
        label="Nothing was opened, moved or changed", required=False, help_text="only looked at, measured or cleaned"
    )
    kinds = forms.MultipleChoiceField(
        label="What was opened, moved or changed",
        widget=forms.CheckboxSelectMultiple({"class": "short"}),
        required=False,
        help_text="They say which readings, ticks and joints no longer hold.",
        error_messages={"required": WHAT_WAS_OPENED},
    )
    told = forms.BooleanField(required=False, initial=True, widget=forms.HiddenInput)
    field_order = ["nothing", "kinds", "moment", "told"]

    def __init__(self, *args: Any, job: Job, **kwargs: Any) -> None:
        super().__init__(*args, job=job, **kwargs)
        self.asked = asks(job)
        if job.recipe and not job.kinds_likely:
            for name in ("kinds", "nothing", "told"):
                del self.fields[name]
            return
        self.fields["kinds"].choices = [(kind, KINDS[kind].label) for kind in likely_first(job.systems, job.kinds)]
        self.fields["kinds"].required = self.asked and not self.data.get("nothing")
        self.initial["kinds"] = job.kinds

    def has_changed(self) -> bool:
        """One tap, from a card or the page of the job, sends none of the fields."""
        return "told" in self.data or bool(self.data.get("moment"))

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        told, nothing = cleaned.pop("told", False), cleaned.pop("nothing", False)
        kinds = cleaned.get("kinds") or []
        if kinds and nothing:
            self.add_error("nothing", "Either something was opened, or nothing was.")
        cleaned["kinds"] = kinds if kinds or nothing or (told and not self.asked) else None
        return cleaned


class ReleaseForm(StepForm):
    """Nothing to say: the work goes on."""


class JobSignForm(LookForm):
    """Signing is of now, whoever looked."""

    def __init__(self, *args: Any, job: Job, at: datetime, **kwargs: Any) -> None:
        safety = for_safety(job)
        super().__init__(*args, workers=workers_of([job.pk])[job.pk] if safety else (), safety=safety, **kwargs)


class ReasonForm(StepForm):
    reason = forms.CharField(label="Why", max_length=200, error_messages={"required": "Write down why."})
