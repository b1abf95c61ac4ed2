"""What a step of a job may be told besides the tap: who, when, how much is left, why."""

from datetime import datetime
from typing import Any

from django import forms

from builds.steps.facts.looks import wants_eyes, workers_of
from builds.steps.forms import LookForm
from builds.work.models.job import MOST_MINUTES, Job
from garage.access import refuse_work_on
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
            off = [who.pk for who in people.prefetch_related("cars") if refuse_work_on(who, job.vehicle)]
            self.fields["crew"].queryset = people.exclude(pk__in=off)

    def clean_moment(self) -> datetime | None:
        moment: datetime | None = self.cleaned_data["moment"]
        if moment and moment > self.at:
            raise forms.ValidationError("That time is still to come: choose one that has passed.")
        return moment


class EarlierForm(StepForm):
    """A step that was taken before anybody had a hand free to tap it."""

    moment = MomentField(label="When it was", required=False, help_text="Empty: now.")


class CrewField(forms.ModelMultipleChoiceField):
    """Those who work on the car of the job."""

    widget = forms.CheckboxSelectMultiple

    def __init__(self, **kwargs: Any) -> None:
        wrong = {"invalid_choice": "Choose people of this garage."}
        super().__init__(Membership.objects.none(), required=False, error_messages=wrong, **kwargs)


class StartForm(EarlierForm):
    crew = CrewField(label="Who is on it", help_text="nobody ticked is you")
    field_order = ["crew", "moment"]


class StopForm(EarlierForm):
    crew = CrewField(label="Who goes on with it", help_text="nobody ticked: it waits")
    left = DurationField(
        label="Left to do, if you know better",
        most=MOST_MINUTES,
        least=1,
        required=False,
        help_text="such as 2 h, 1:30 or 45 min",
    )
    field_order = ["crew", "moment", "left"]


class ReleaseForm(StepForm):
    """Nothing to say: the work goes on."""


class JobSignForm(LookForm):
    """Signing is of now, whoever looked."""

    def __init__(self, *args: Any, job: Job, at: datetime, **kwargs: Any) -> None:
        safety = wants_eyes(job)
        super().__init__(*args, workers=workers_of([job.pk])[job.pk] if safety else (), safety=safety, **kwargs)


class ReasonForm(StepForm):
    reason = forms.CharField(label="Why", max_length=200, error_messages={"required": "Write down why."})
