"""Forms of links, and of the stations that stripped cars keep."""

from datetime import datetime
from typing import Any

from django import forms

from builds.cure.facts.products import products_of
from builds.cure.forms import cure_choices, cure_value
from builds.recipes.forms import FleetJobChoice, JobChoice
from builds.work.models.job import MOST_MINUTES, Job
from builds.work.models.link import Link
from garage.forms.choices import NOT_HERE
from garage.forms.durations import DurationField
from garage.forms.edits import EditForm
from garage.models import Garage, Membership, Station

WAIT = ("wait_minutes", "why", "cure", "cure_stage")


class CutForm(forms.Form):
    """Why the order of work is left aside between two jobs."""

    because = forms.CharField(
        label="Why",
        max_length=200,
        help_text="such as: the wheels are off already",
        error_messages={"required": "Write why: the reason stays with the cut."},
    )


class FreeForm(forms.Form):
    """Why the place of a stripped car is free."""

    because = forms.CharField(label="Why", max_length=200, help_text="such as: it stands on dollies in the yard")


class WaitForm(EditForm, forms.Form):
    """A wait that is typed, or that of a cure."""

    cure = forms.ChoiceField(
        label="Or what cures",
        required=False,
        help_text="Its time is computed from how warm the shop is.",
        error_messages=NOT_HERE,
    )
    wait_minutes = DurationField(
        label="Wait between",
        most=MOST_MINUTES,
        required=False,
        help_text="such as 16 h while primer cures; it runs through the night",
    )
    why = forms.CharField(label="Why", max_length=80, required=False, help_text="such as: the primer cures")

    field_order = ["wait_minutes", "cure", "why"]

    def __init__(self, *args: Any, garage: Garage, link: Link | None = None, **kwargs: Any) -> None:
        if link:
            kwargs["initial"] = {
                "wait_minutes": None if link.cure_stage else link.wait_minutes,
                "why": link.why,
                "cure": cure_value(link.cure, link.cure_stage),
            }
        super().__init__(*args, edits=link is not None, **kwargs)
        self.products = products_of(garage)
        self.fields["cure"].choices = cure_choices(self.products)

    def clean_wait_minutes(self) -> int:
        return self.cleaned_data["wait_minutes"] or 0

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        cure, _, stage = cleaned.pop("cure", "").partition(":")
        wait = cleaned.get("wait_minutes")
        if stage and wait:
            said = "The time of this cure is computed: leave this empty."
            self.add_error("wait_minutes", said)
        if cure and not stage and wait == 0:
            said = f"{self.products[cure].name} is never computed: enter the maker's time for the"
            self.add_error("wait_minutes", f"{said} temperature and humidity you have.")
        return {**cleaned, "cure": cure, "cure_stage": stage}

    def wait(self) -> dict[str, Any]:
        """What the actions take."""
        return {name: self.cleaned_data[name] for name in WAIT}


class LinkForm(WaitForm):
    """Which way round, the other job, the wait between and why."""

    way = forms.ChoiceField(
        label="Which comes first",
        choices=[("before", "the other job comes first"), ("after", "the other job comes after")],
        initial="before",
        widget=forms.RadioSelect,
    )
    other = FleetJobChoice(
        label="The other job",
        queryset=Job.objects.none(),
        empty_label="Choose",
        error_messages={**NOT_HERE, "required": "Choose the other job."},
    )
    field_order = ["way", "other", "wait_minutes", "cure", "why"]

    def __init__(self, *args: Any, member: Membership, job: Job, at: datetime, **kwargs: Any) -> None:
        super().__init__(*args, garage=member.garage, **kwargs)
        self.job = job
        self.fields["other"].queryset = Job.objects.visible_to(member).linkable(job, at).select_related("vehicle")

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
    last = JobChoice(
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
