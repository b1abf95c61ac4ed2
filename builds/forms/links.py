"""Forms of links, and of the stations that stripped cars keep."""

from typing import Any

from django import forms

from builds.forms.jobs import NOT_HERE
from builds.models import Job
from builds.models.job import MOST_MINUTES
from garage.forms.durations import DurationField
from garage.models import Membership, Station


class JobChoice(forms.ModelChoiceField):
    def label_from_instance(self, job: Any) -> str:
        return f"{job.vehicle}: {job}"


class WaitForm(forms.Form):
    wait_minutes = DurationField(
        label="Wait between",
        most=MOST_MINUTES,
        required=False,
        help_text="such as 16 h while primer cures; it runs through the night",
    )
    why = forms.CharField(
        label="Why", max_length=80, required=False, help_text="such as: the primer cures"
    )

    def clean_wait_minutes(self) -> int:
        return self.cleaned_data["wait_minutes"] or 0


class LinkForm(WaitForm):
    """Which way round, the other job, the wait between and why."""

    way = forms.ChoiceField(
        label="Which comes first",
        choices=[("before", "the other job comes first"), ("after", "the other job comes after")],
        initial="before",
        widget=forms.RadioSelect,
    )
    other = JobChoice(
        label="The other job",
        queryset=Job.objects.none(),
        empty_label="Choose",
        error_messages={**NOT_HERE, "required": "Choose the other job."},
    )
    field_order = ["way", "other", "wait_minutes", "why"]

    def __init__(self, *args: Any, member: Membership, job: Job, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.job = job
        self.fields["other"].queryset = (
            Job.objects.visible_to(member).linkable(job).select_related("vehicle")
        )

    def ends(self) -> tuple[Job, Job]:
        """The job that comes first, and the one that waits for it."""
        other: Job = self.cleaned_data["other"]
        return (other, self.job) if self.cleaned_data["way"] == "before" else (self.job, other)


class StationHoldForm(forms.Form):
    station = forms.ModelChoiceField(
        queryset=Station.objects.none(),
        empty_label="Choose",
        error_messages={**NOT_HERE, "required": "Choose a station."},
    )
    last = forms.ModelChoiceField(
        label="Until this job is done",
        queryset=Job.objects.none(),
        empty_label="Choose",
        error_messages={
            "invalid_choice": "That is not a job of this car: choose from the list.",
            "required": "Choose the job that frees it.",
        },
    )

    def __init__(self, *args: Any, member: Membership, job: Job, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["station"].queryset = Station.objects.visible_to(member)
        self.fields["last"].queryset = Job.objects.visible_to(member).on(job.vehicle).open()
